/** What others found of breeding rings, as their abstracts give it; sheep, since we know of no published ring of fish rooms. */

export interface PublishedRing {
	readonly what: string;
	/** In 100 of what is left; null = not told. */
	readonly without: string | null;
	readonly ring: string;
	readonly each: 'a year' | 'a generation';
	readonly source: string;
}

const windigKaal = 'Windig and Kaal 2008, Animal 2:1733';
const windigVerweij = 'Windig, Verweij and Oldenbroek 2019, Journal of Animal Breeding and Genetics 136:51';

export const publishedRings: readonly PublishedRing[] = [
	{
		what: 'Flocks of a heath sheep, simulated',
		...{ without: 'more than 1.5', ring: '0.16', each: 'a year', source: windigKaal }
	},
	{
		what: 'Another heath sheep, by formula and simulated',
		...{ without: null, ring: '0.12 to 0.18', each: 'a generation', source: windigVerweij }
	},
	{
		what: 'The same, measured after 30 years',
		...{ without: null, ring: '0.29 to 0.41', each: 'a generation', source: windigVerweij }
	}
];
