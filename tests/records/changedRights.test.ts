import { describe, expect, it } from 'vitest';
import { Fold } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { fishOf, newClub, type Story } from './story.ts';

const fish = fishOf(1, 0, 0);

/** What members say of their own fish and of others', before and after a change of rights. */
function tellOfAll(story: Story, turn: number): void {
	for (const member of ['kim', 'kai', 'nora', 'fay', 'cora']) {
		const counted = story.count(member, 'g1', fishOf(turn, 2, 0));
		const moved = story.tell(member, 'group/moved', { from: 'g1', to: 'g3', room: null, fish });
		story.tell('kim', 'word/confirmed', { entry: moved });
		story.tell('kit', 'word/confirmed', { entry: counted });
		const doubt = story.tell('nora', 'word/disputed', { entry: counted, reason: '' });
		story.tell(member, 'word/decided', { dispute: doubt, of: counted, stands: false, reason: '' });
		story.count(member, 'g1', fishOf(turn, 1, 0), { corrects: [counted] });
		story.tell(member, 'group/closed', { group: 'g3', room: null, reason: '' });
		story.tell(member, 'meeting/planned', { meeting: 't1', name: 'Spring', date: '2026-03-14', place: '' });
		story.tell(member, 'exchange/answered', {
			exchange: 'x1',
			line: 'lA',
			room: 'r3',
			answer: 'yes',
			until: '',
			reason: ''
		});
		story.bag(member, `b-${member}-${turn}`, { fromRoom: 'r1', to: { to: 'room', room: 'r3' } });
		story.tell(member, 'bag/handedOver', {
			bag: `b-${member}-${turn}`,
			fromRoom: 'r1',
			toRoom: 'r3',
			meeting: 't1'
		});
	}
}

const changes: readonly (readonly [name: string, kind: string, body: object])[] = [
	['another keeper of the room', 'club/keeperAdded', { room: 'r3', member: 'kim', epoch: 'e' }],
	['a keeper of both rooms', 'club/keeperAdded', { room: 'r1', member: 'kit', epoch: 'e' }],
	['a keeper gives up the room', 'club/keeperRemoved', { room: 'r1', member: 'kim', epoch: 'e' }],
	['the first removal, of somebody else', 'club/keeperRemoved', { room: 'r3', member: 'nora', epoch: 'e' }],
	['a new officer', 'club/roleGiven', { member: 'nora', role: 'officer', of: null }],
	['a new deputy', 'club/roleGiven', { member: 'kai', role: 'deputy', of: 'lA' }],
	['a coordinator gives up', 'club/roleEnded', { member: 'cora', role: 'coordinator', of: 'lA' }],
	['a runner', 'club/roleGiven', { member: 'fay', role: 'runner', of: 't1' }],
	['a keeper leaves', 'club/memberLeft', { member: 'kim', name: 'former member 2' }],
	['somebody joins again', 'club/memberJoined', { member: 'lena', name: 'lena' }]
];

describe('rights that change after all is judged', () => {
	it.each(changes)(
		'[R1] [R20] %s: what was judged before is judged anew where it must be',
		(_, kind, body) => {
			const story = newClub();
			story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0));
			story.start('kit', 'g3', 'r3', 'lB', fishOf(1, 1, 0));
			story.tell('cora', 'exchange/proposed', {
				exchange: 'x1',
				line: 'lA',
				gives: [{ fromRoom: 'r1', group: 'g1', fish }],
				toRoom: 'r3',
				meeting: null,
				note: '',
				reason: '',
				asked: true
			});
			tellOfAll(story, 1);
			const id = story.club(kind, body);
			tellOfAll(story, 2);
			const fold = new Fold();
			fold.add(story.inputs.filter(({ entry }) => entry?.id !== id));
			const before = foldPicture(fold);
			fold.add(story.inputs.filter(({ entry }) => entry?.id === id));
			expect(foldPicture(fold)).toEqual(foldPicture(story.fold()));
			expect(foldPicture(fold)).not.toEqual(before);
		}
	);

	it('[R24] [R27] who confirmed for one group speaks for the other too, once keeping its room', () => {
		const story = newClub();
		story.start('kai', 'g1', 'r2', 'lA', fishOf(2, 3, 0));
		story.start('kit', 'g3', 'r3', 'lB', fishOf(1, 1, 0));
		const moved = story.tell('nora', 'group/moved', { from: 'g1', to: 'g3', room: null, fish });
		story.tell('kai', 'word/confirmed', { entry: moved });
		const fold = story.fold();
		expect(fold.view(moved)?.verdict.name).toBe('told by');
		story.club('club/keeperAdded', { room: 'r3', member: 'kai', epoch: 'e' });
		fold.add(story.inputs.slice(-1));
		expect(fold.view(moved)?.verdict.name).toBe('counts');
	});
});
