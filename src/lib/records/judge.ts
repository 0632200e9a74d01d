/**
 * The verdict of one entry (SPEC R20 to R29): does it count, and if not, why? It depends only on memberships, roles
 * and keepers, on the rooms the entry itself names, and on earlier holdings; never on later entries except one
 * confirming tap.
 */
import type { Authority, MemberRights } from './authority.ts';
import type { Corrections } from './corrections.ts';
import type { Subject } from './dossier.ts';
import type { Item } from './item.ts';
import { isPlacedBefore } from './placings.ts';
import { hasPart, mayDecide, placesOf } from './rights.ts';
import type { Verdict } from './state.ts';

const counts: Verdict = { name: 'counts', why: '' };
const say = (name: Verdict['name'], why: string): Verdict => ({ name, why });

export function judge(item: Item, authority: Authority, corrections: Corrections): Verdict {
	if (item.problem !== '' || !item.kind)
		return say('not understood', `This entry is kept, but ${item.problem}.`);
	if (item.inCircle) return say('not understood', 'These corrections correct each other in a circle.');
	const byClub = item.entry.by === 'club';
	if (item.kind.nature === 'server') {
		return byClub
			? counts
			: say('not allowed', 'Only the club’s server writes this, when an officer asks it to.');
	}
	if (item.kind.nature === 'private')
		return say('not understood', 'Private words do not belong in the club’s record.');
	if (byClub) return counts;
	const targets = corrections.targets(item);
	if (targets.length < item.corrects.length + item.speaksOf.length) {
		return say('waiting', 'It speaks of an entry that has not come yet.');
	}
	const correcting = item.corrects.length > 0 ? judgeCorrecting(item, authority, targets) : null;
	if (correcting) return correcting;
	switch (item.kind.nature) {
		case 'decision':
			return judgeDecision(item, authority, targets);
		case 'tap':
			return judgeTap(item, authority, targets);
		default:
			return judgeFact(item, authority, corrections);
	}
}

function judgeCorrecting(item: Item, authority: Authority, targets: readonly Item[]): Verdict | null {
	const corrected = targets.filter((target) => item.corrects.includes(target.entry.id));
	if (corrected.some((target) => target.kind?.nature === 'server' || target.entry.by === 'club')) {
		return say('not allowed', 'This entry cannot be corrected by a member.');
	}
	if (corrected.every((target) => mayCorrect(item, target, authority))) return null;
	const why = 'A correction comes from the author, a keeper of the room, or the line’s coordinator.';
	return item.kind?.nature === 'decision' ? say('not allowed', why) : say('told by', why);
}

function mayCorrect({ entry, rights }: Item, target: Item, authority: Authority): boolean {
	return (
		target.entry.by === entry.by || target.entry.toldBy === entry.by || hasPart(rights, target, authority)
	);
}

function judgeDecision(item: Item, authority: Authority, targets: readonly Item[]): Verdict {
	if (!item.stamp) return say('waiting', 'A decision counts once the club’s server has it.');
	const decides = item.kind?.decides ?? 'officer';
	const disputed = decides === 'dispute' ? disputedEntry(item, targets) : null;
	if (decides === 'dispute' && !disputed) return say('not allowed', 'It names no dispute of that entry.');
	if (mayDecide(item, authority, disputed)) return counts;
	if (isUnheardOf(item)) return say('waiting', 'It speaks of something that has not come yet.');
	return say('not allowed', whoMay[decides]);
}

/** What a decision on a dispute is about: the disputed entry, which a member may have written and an app can read. */
function disputedEntry(item: Item, targets: readonly Item[]): Item | null {
	const { dispute, of } = item.body as { dispute: string; of: string };
	const disputing = targets.find((one) => one.entry.id === dispute);
	const disputed = targets.find((one) => one.entry.id === of);
	if (disputing?.entry.kind !== 'word/disputed' || disputing.speaksOf[0] !== of) return null;
	return disputed && disputed.kind?.nature !== 'server' ? disputed : null;
}

const whoMay = {
	officer: 'Only an officer decides this.',
	line: 'Only the line’s coordinator, deputy or an officer decides this.',
	room: 'Only those who keep the room decide this, or an officer for them.',
	proposer: 'Only the line’s coordinator or a keeper of one of the rooms can do this.',
	side: 'Each side answers for itself, or by phone through the coordinator.',
	dispute: 'Only the line’s coordinator or an officer decides a dispute.'
} as const;

/** Whether it is about a group or an exchange that no room is known to hold or take part in. */
function isUnheardOf(item: Item): boolean {
	const places = placesOf(item);
	return item.things.some(
		(thing) =>
			(thing.type === 'group' || thing.type === 'exchange') &&
			!places.some(([placed]) => placed === thing.id) &&
			!isPlacedBefore(thing.dossier.rooms, item.rank)
	);
}

/** A confirming tap is judged as if it stood where the confirmed entry stands, without that entry's own effect. */
function judgeTap(item: Item, authority: Authority, targets: readonly Item[]): Verdict {
	if (item.kind?.kind !== 'word/confirmed') return counts;
	const target = targets[0];
	if (target && hasPart(item.rights, target, authority)) return counts;
	return say('told by', 'A confirmation counts from someone with a part in it.');
}

function judgeFact(item: Item, authority: Authority, corrections: Corrections): Verdict {
	if (item.kind?.partInEach) return judgeMove(item, authority, corrections);
	if (hasPart(item.rights, item, authority)) return counts;
	if (corrections.confirmations(item).length > 0) return counts;
	return say('told by', 'It waits for one tap of someone with a part in it.');
}

/** Fish that go from one thing to another: somebody with a part in each has to say so, in one entry or with a tap. */
function judgeMove(item: Item, authority: Authority, corrections: Corrections): Verdict {
	const tellers: MemberRights[] = [item.rights];
	for (const tap of corrections.confirmations(item)) tellers.push(tap.rights);
	const isSpokenFor = (thing: Subject<Item>) =>
		tellers.some((rights) => hasPart(rights, item, authority, thing.alone));
	if (item.things.every(isSpokenFor)) return counts;
	return say('told by', 'It waits for one tap of someone with a part in both.');
}
