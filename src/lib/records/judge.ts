/**
 * The verdict of one entry (SPEC R20 to R29): does it count, and if not, why? It depends only on memberships, roles
 * and keepers, on the rooms the entry itself names, and on earlier holdings; never on later entries except one
 * confirming tap.
 */
import type { Item } from './item.ts';
import type { ThingRef } from './kind.ts';
import { hasPart, mayDecide, type Ground } from './rights.ts';
import type { Verdict } from './state.ts';
import type { Corrections } from './corrections.ts';

const counts: Verdict = { name: 'counts', why: '' };
const say = (name: Verdict['name'], why: string): Verdict => ({ name, why });

export function judge(item: Item, ground: Ground, corrections: Corrections): Verdict {
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
	const correcting = judgeCorrecting(item, ground, targets);
	if (correcting) return correcting;
	switch (item.kind.nature) {
		case 'decision':
			return judgeDecision(item, ground, targets);
		case 'tap':
			return judgeTap(item, ground, targets);
		default:
			return judgeFact(item, ground, corrections);
	}
}

function judgeCorrecting(item: Item, ground: Ground, targets: readonly Item[]): Verdict | null {
	const corrected = targets.filter((target) => item.corrects.includes(target.entry.id));
	if (corrected.some((target) => target.kind?.nature === 'server' || target.entry.by === 'club')) {
		return say('not allowed', 'This entry cannot be corrected by a member.');
	}
	if (corrected.every((target) => mayCorrect(item.entry.by, target, ground))) return null;
	const why = 'A correction comes from the author, a keeper of the room, or the line’s coordinator.';
	return item.kind?.nature === 'decision' ? say('not allowed', why) : say('told by', why);
}

function mayCorrect(member: string, target: Item, ground: Ground): boolean {
	return target.entry.by === member || target.entry.toldBy === member || hasPart(member, target, ground);
}

function judgeDecision(item: Item, ground: Ground, targets: readonly Item[]): Verdict {
	if (!item.stamp) return say('waiting', 'A decision counts once the club’s server has it.');
	const decides = item.kind?.decides ?? 'officer';
	const disputed = decides === 'dispute' ? disputedEntry(item, targets) : null;
	if (decides === 'dispute' && !disputed) return say('not allowed', 'It names no dispute of that entry.');
	if (mayDecide(item, ground, disputed)) return counts;
	if (isUnheardOf(item, ground)) return say('waiting', 'It speaks of something that has not come yet.');
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
function isUnheardOf(item: Item, ground: Ground): boolean {
	const places = item.kind?.places?.(item.body) ?? [];
	return item.things.some(
		(thing) =>
			(thing.type === 'group' || thing.type === 'exchange') &&
			!places.some(([placed]) => placed === thing.id) &&
			ground.holdings.before(thing.id, item.rank).length === 0
	);
}

/** A confirming tap is judged as if it stood where the confirmed entry stands, without that entry's own effect. */
function judgeTap(item: Item, ground: Ground, targets: readonly Item[]): Verdict {
	if (item.entry.kind !== 'word/confirmed') return counts;
	const target = targets[0];
	if (target && hasPart(item.entry.by, target, ground)) return counts;
	return say('told by', 'A confirmation counts from someone with a part in it.');
}

function judgeFact(item: Item, ground: Ground, corrections: Corrections): Verdict {
	if (item.kind?.partInEach) return judgeMove(item, ground, corrections);
	if (hasPart(item.entry.by, item, ground)) return counts;
	if (corrections.confirmations(item).length > 0) return counts;
	return say('told by', 'It waits for one tap of someone with a part in it.');
}

/** Fish that go from one thing to another: somebody with a part in each has to say so, in one entry or with a tap. */
function judgeMove(item: Item, ground: Ground, corrections: Corrections): Verdict {
	const tellers = [item.entry.by, ...corrections.confirmations(item).map((tap) => tap.entry.by)];
	const isSpokenFor = (thing: ThingRef) => tellers.some((member) => hasPart(member, item, ground, [thing]));
	if (item.things.every(isSpokenFor)) return counts;
	return say('told by', 'It waits for one tap of someone with a part in both.');
}
