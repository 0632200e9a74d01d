import { describe, expect, it } from 'vitest';
import { regionsFar } from '#club/rooms/regionsFar.ts';
import { lineAhead } from '#season/ahead/lineAhead.ts';
import type { SeasonSettings } from '#season/seasonSettings.ts';
import { fish, SeasonClub } from './seasonClub.ts';

const small = () =>
	new SeasonClub()
		.line('blue')
		.group('colony', 'harbour', 'blue', fish(5, 7))
		.group('seed', 'orchard', 'blue', fish(4, 6));
function pairsOf(club: SeasonClub, me = 'officer') {
	const fold = club.fold();
	return regionsFar(fold.state, {}, club.asking(fold, me));
}

describe('which regions are far apart', () => {
	it('lists every pair of regions with rooms once, with who said so; officers decide', () => {
		const club = small().far('Hills', 'Coast');
		const { pairs, mayDecide, club: id } = pairsOf(club);
		expect([id, mayDecide, pairsOf(club, 'cora').mayDecide]).toEqual(['c', true, false]);
		expect(pairs.map(({ one, other, far }) => `${one} ${other} ${far}`)).toEqual([
			...['Coast Hills true', 'Coast Vale false', 'Hills Vale false']
		]);
		expect(pairs[0]?.said?.name).toBe('officer');
		expect(pairs[1]?.said).toBeNull();
	});

	it('a pair whose rooms have moved since is still told, so that it can be taken back', () => {
		const { pairs } = pairsOf(small().far('Coast', 'Isles'));
		expect(pairs.filter(({ far }) => far).map(({ one, other }) => `${one} ${other}`)).toEqual([
			'Coast Isles'
		]);
		expect(pairs.some(({ one, other }) => one === 'Hills' && other === 'Isles')).toBe(false);
	});

	it('the ring goes by it too', () => {
		const ways = (club: SeasonClub) => {
			const fold = club.fold();
			return lineAhead(fold.state, { line: 'blue' }, club.asking(fold))?.ring.rooms.map(({ way }) => way);
		};
		expect(ways(small())).toEqual(['drive', 'drive']);
		expect(ways(small().far('Coast', 'Hills'))).toEqual(['far', 'far']);
	});

	it('the start of a plan tells it; what a device kept of its own is no longer asked', () => {
		expect(small().far('Hills', 'Coast').start('cora').far).toEqual([['Coast', 'Hills']]);
		const kept = { far: [['Coast', 'Hills']] } as unknown as Partial<SeasonSettings>;
		expect(small().asked(kept)).toEqual(small().asked());
	});
});
