/**
 * The verdict of one entry (SPEC R20 to R29): does it count, and if not, why? It depends only on memberships, roles
 * and keepers, on the rooms the entry itself names, and on earlier holdings; never on later entries except one
 * confirming tap.
 */
import type { Item } from './item.ts';
import { hasPart, mayDecide, momentOf, type Ground } from './rights.ts';
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
			return judgeDecision(item, ground);
		case 'tap':
			return judgeTap(item, ground, targets);
		default:
			return judgeFact(item, ground, corrections);
	}
}

function judgeCorrecting(item: Item, ground: Ground, targets: readonly Item[]): Verdict | null {
	const corrected = targets.filter((target) => item.corrects.includes(target.entry.id));
	if (corrected.some((target) => target.kind?.nature === 'server' || target.problem !== '')) {
		return say('not allowed', 'This entry cannot be corrected by a member.');
	}
	if (corrected.every((target) => mayCorrect(item.entry.by, target, ground))) return null;
	const why = 'A correction comes from the author, a keeper of the room, or the line’s coordinator.';
	return item.kind?.nature === 'decision' ? say('not allowed', why) : say('told by', why);
}

function mayCorrect(member: string, target: Item, ground: Ground): boolean {
	return target.entry.by === member || target.entry.toldBy === member || hasPart(member, target, ground);
}

function judgeDecision(item: Item, ground: Ground): Verdict {
	if (!item.stamp) return say('waiting', 'A decision counts once the club’s server has it.');
	if (mayDecide(item, ground)) return counts;
	if (item.kind?.decides === 'side' && isUnheardOf(item, ground)) {
		return say('waiting', 'It speaks of an exchange that has not come yet.');
	}
	return say('not allowed', whoMay[item.kind?.decides ?? 'officer']);
}

const whoMay = {
	officer: 'Only an officer decides this.',
	line: 'Only the line’s coordinator, deputy or an officer decides this.',
	room: 'Only those who keep the room decide this, or an officer for them.',
	proposer: 'Only the line’s coordinator or a keeper of one of the rooms can do this.',
	side: 'Each side answers for itself, or by phone through the coordinator.',
	dispute: 'Only the line’s coordinator or an officer decides a dispute.'
} as const;

function isUnheardOf(item: Item, ground: Ground): boolean {
	return item.things.every((thing) => ground.holdings.before(thing.id, item.rank).length === 0);
}

/** A confirming tap is judged as if it stood where the confirmed entry stands, without that entry's own effect. */
function judgeTap(item: Item, ground: Ground, targets: readonly Item[]): Verdict {
	if (item.entry.kind !== 'word/confirmed') return counts;
	const target = targets[0];
	if (target && hasPart(item.entry.by, target, ground)) return counts;
	return say('told by', 'A confirmation counts from someone with a part in it.');
}

function judgeFact(item: Item, ground: Ground, corrections: Corrections): Verdict {
	if (hasPart(item.entry.by, item, ground, momentOf(item))) return counts;
	for (const tap of corrections.referrers(item)) {
		if (tap.entry.kind === 'word/confirmed' && tap.verdict.name === 'counts') return counts;
	}
	return say('told by', 'It waits for one tap of someone with a part in it.');
}
