/** What waits for a person, in words: what it is, and what to do next. */
import type { Need } from '#club/needs/need.ts';
import { needWords as bagWords } from '#ui/bags/bagWords.ts';
import { waitWords } from '#ui/exchanges/exchangeWords.ts';

export interface NeedSaid {
	readonly what: string;
	readonly next: string;
	/** Below the club. */
	readonly href: string;
}

const exchangeNext = {
	answer: 'Say yes, no or later.',
	bag: 'Pack the fish and log the bag.',
	receive: 'Say when it has arrived.',
	send: 'Ask both sides.',
	'plan B': 'Find another way, or let it be.'
} as const;

const bagNext: Partial<Record<Extract<Need, { sort: 'bag' }>['code'], string>> = {
	'two bags with one number': 'Look at both and say whether they are one.',
	'said differently': 'Look at both and say what holds.',
	'not arrived': 'Ask the other side, then say what became of it.',
	'day-7 count': 'Count them, or say about how many live.'
};

/** The reason says the rest. */
const ownWhat = {
	'told by': '',
	waiting: 'Waiting. ',
	'not allowed': 'Not allowed. ',
	'not understood': 'Not understood. '
} as const;

const ownNext = {
	'told by': 'Ask somebody who keeps the room to open it and press “So it is”.',
	waiting: 'It counts by itself when the rest has come. If it never comes, correct it.',
	'not allowed': 'Ask the one who decides, or take it back.',
	'not understood': 'Take the update of this app. If that does not help, show it to an officer.'
} as const;

const pages = {
	club: 'more',
	member: 'members',
	room: 'rooms',
	line: 'lines',
	group: 'groups',
	spawn: 'spawns',
	bag: 'bags',
	exchange: 'exchanges',
	meeting: 'meetings'
} as const;

export function needSaid(need: Need): NeedSaid {
	const page = `${pages[need.thing.type]}/${need.thing.id}`;
	// A bag's page shows beside the bag what waits for a tap; everything else shows it in its history.
	const history = need.thing.type === 'bag' ? page : `${page}/history${need.sort === 'own' ? '' : '?look'}`;
	switch (need.sort) {
		case 'exchange':
			return { what: waitWords[need.code], next: exchangeNext[need.code], href: page };
		case 'bag':
			return { what: bagWords[need.code], next: bagNext[need.code] ?? '', href: page };
		case 'confirm':
			return {
				what: `${need.who} said so`,
				next: 'If it is so, press “So it is”. Until then it does not count.',
				href: history
			};
		case 'doubt':
			return {
				what: `${need.by} doubts it${need.reason ? `: ${need.reason}` : ''}`,
				next:
					need.code === 'decide'
						? 'Hear both sides, then decide whether it stands.'
						: 'If they are right, correct it. Else the coordinator or an officer decides.',
				href: history
			};
		case 'two versions':
			return {
				what: 'Two versions, needs a look',
				next: 'Two people put it right without knowing of each other. Say which one holds.',
				href: history
			};
		case 'own':
			return { what: `${ownWhat[need.code]}${need.why}`, next: ownNext[need.code], href: history };
	}
}

/** The parts of the page, in the order in which people wait. */
export const needParts: readonly { readonly title: string; readonly sorts: readonly Need['sort'][] }[] = [
	{ title: 'Exchanges', sorts: ['exchange'] },
	{ title: 'Bags', sorts: ['bag'] },
	{ title: 'One tap of yours', sorts: ['confirm'] },
	{ title: 'Doubts and two versions', sorts: ['doubt', 'two versions'] },
	{ title: 'What you wrote and does not count', sorts: ['own'] }
];
