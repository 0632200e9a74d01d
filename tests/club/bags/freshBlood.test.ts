import { expect, it } from 'vitest';
import { freshBlood } from '#club/bags/freshBlood.ts';
import { Club, fish, parents } from '#tests/pedigree/builders.ts';

function club(): Club {
	const club = new Club();
	club.founders('father', 'harbour', fish(1, 0), 'unrelated');
	club.founders('mother', 'harbour', fish(0, 1), 'unrelated');
	club.spawn('march', 'harbour', {
		fathers: parents([['father', 'seen']]),
		mothers: parents([['mother', 'seen']])
	});
	club.bag('b1', {
		from: 'harbour',
		to: 'mill',
		contents: [{ group: 'march-young', fish: fish(0, 0, 6) }],
		group: 'mill-young'
	});
	club.founders('wild', 'orchard', fish(2, 2), 'unrelated');
	const said = { line: 'cory', to: { to: 'open' } };
	const content = (group: string) => [{ group, fish: fish(0, 0, 2) }];
	club.bagged('harbour-keeper', 'back', 100, {
		...said,
		number: '0417K',
		fromRoom: 'harbour',
		contents: content('march-young')
	});
	club.bagged('orchard-keeper', 'new', 100, {
		...said,
		number: '0418R',
		fromRoom: 'orchard',
		contents: content('wild')
	});
	club.founders('another mother', 'harbour', fish(0, 1), 'unrelated', 101);
	club.spawn('may', 'harbour', {
		fathers: parents([['father', 'seen']]),
		mothers: parents([['another mother', 'seen']]),
		at: 120
	});
	club.bagged('harbour-keeper', 'half', 130, {
		...said,
		number: '0419Y',
		fromRoom: 'harbour',
		contents: content('may-young')
	});
	return club;
}
const state = club().fold().state;

it('siblings bought back are the same fish as mine', () => {
	const answer = freshBlood(state, { mine: 'mill', number: '0417K' });
	expect(answer.answer).toBe('same');
	expect(answer.sentence).toBe(
		'These are of the same fish as yours: both came from the brood of cory line in harbour room.'
	);
	expect(answer.figure).toContain('As close as brother and sister: 0.25');
});

it('half brothers and sisters share a forebear', () => {
	const answer = freshBlood(state, { mine: 'mill', number: '0419Y' });
	expect(answer.answer).toBe('shared');
	expect(answer.sentence).toBe('These share forebears with yours: both go back to father in harbour room.');
	expect(answer.figure).toContain('0.13');
});

it('nothing shared is new blood, as far as the record goes', () => {
	expect(freshBlood(state, { mine: 'mill', number: '0418R' })).toMatchObject({ answer: 'none', figure: '' });
	expect(freshBlood(state, { mine: 'mill', room: 'orchard', line: 'cory' }).answer).toBe('none');
});

it('what nobody said is unknown, and said so', () => {
	const listed = club();
	listed.group('listed', 'quarry', fish(2, 2), { from: 'list', row: 'row 3' });
	listed.bagged('quarry-keeper', 'z', 140, {
		number: '0420T',
		line: 'cory',
		fromRoom: 'quarry',
		to: { to: 'open' }
	});
	listed.bagged('quarry-keeper', 'y', 140, { number: '0421L', fromRoom: 'quarry', to: { to: 'open' } });
	const { state } = listed.fold();
	expect(freshBlood(state, { mine: 'mill', number: '0420T' }).answer).toBe('unknown');
	expect(freshBlood(state, { mine: 'mill', number: '0421L' }).answer).toBe('unknown');
});

it('a number not heard of, and a room without the line, are said plainly', () => {
	expect(freshBlood(state, { mine: 'mill', number: '0999X' }).answer).toBe('not found');
	expect(freshBlood(state, { mine: 'quarry', number: '0417K' })).toMatchObject({
		answer: 'no fish',
		sentence: 'Quarry room has no fish of cory line, so any are new there.'
	});
});
