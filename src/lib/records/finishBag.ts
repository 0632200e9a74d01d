/** What follows from all that was said of one bag: what stands, what differs, how far it has come (SPEC R54 to R57). */
import { addFish, fishText, howManyFish, noFish, sameFish } from './fishCount.ts';
import type { Bag, BagContent, BagStage, BagStatement, Fish } from './state.ts';

/** Settles the figures of a bag from its statements. `rankOf` orders entries; mutates and returns the bag. */
export function finishBag(bag: Bag, rankOf: (entry: string) => string): Bag {
	bag.statements.sort((a, b) => (rankOf(a.entry) < rankOf(b.entry) ? -1 : 1));
	bag.arrivals.sort((a, b) => (rankOf(a.entry) < rankOf(b.entry) ? -1 : 1));
	// Each side's number stands for its own room: the giver's word on what was packed, then the latest of any.
	const byTrust = [...bag.statements].sort((a, b) => trust(b) - trust(a));
	bag.number = byTrust.find((one) => one.number)?.number ?? '';
	bag.line = byTrust.find((one) => one.line)?.line ?? bag.arrivals.find((one) => one.line)?.line ?? null;
	bag.fromRoom = byTrust.find((one) => one.fromRoom)?.fromRoom ?? null;
	const lastTo =
		[...bag.statements].reverse().find((one) => one.to && one.to.to !== 'open') ?? bag.statements.at(-1);
	bag.to = lastTo?.to ?? null;
	bag.contents =
		byTrust.find((one) => howManyFish(totalOf(one.contents)) > 0 || one.contents.length > 0)?.contents ?? [];
	bag.baggedAt = bag.statements[0]?.when ?? null;
	bag.stage = stageOf(bag, rankOf);
	const spoken = [...bag.statements, ...bag.arrivals].map((one) => rankOf(one.entry));
	const lookedAt = bag.settled ? rankOf(bag.settled.entry) : '';
	bag.differences = spoken.every((rank) => rank < lookedAt) && bag.settled ? [] : differences(bag);
	return bag;
}

function trust(statement: BagStatement): number {
	return { giver: 2, other: 1, receiver: 0 }[statement.side];
}

export function totalOf(contents: readonly BagContent[]): Fish {
	return contents.reduce((sum, content) => addFish(sum, content.fish), noFish);
}

function stageOf(bag: Bag, rankOf: (entry: string) => string): BagStage {
	const lastArrival = bag.arrivals.at(-1);
	// A bag that was given up as lost and turns up after all has arrived.
	const turnedUp = bag.failed && lastArrival && rankOf(lastArrival.entry) > rankOf(bag.failed.entry);
	if (bag.failed && !turnedUp) return 'failed';
	if (bag.dayCounts.length) return 'settled';
	if (bag.arrivals.length) return 'arrived';
	if (bag.givenBack) return 'given back';
	if (bag.handOvers.length) return 'handed over';
	return bag.statements.length ? 'bagged' : 'mentioned';
}

/** What two people say differently, each in one plain sentence without names: the statements stand beside it. */
function differences(bag: Bag): string[] {
	const found: string[] = [];
	const distinct = (values: readonly string[]) => [...new Set(values.filter(Boolean))];
	const lines = distinct([...bag.statements, ...bag.arrivals].map((one) => one.line ?? ''));
	if (lines.length > 1) found.push('They do not agree which line is in it.');
	const givers = distinct(bag.statements.map((one) => one.fromRoom ?? ''));
	if (givers.length > 1) found.push('They do not agree which room it came from.');
	const receivers = distinct([
		...bag.statements.map((one) => (one.to?.to === 'room' ? one.to.room : '')),
		...bag.arrivals.map((one) => one.room)
	]);
	if (receivers.length > 1) found.push('They do not agree whom it is for.');
	const packed = bag.statements.map((one) => totalOf(one.contents)).filter((fish) => howManyFish(fish) > 0);
	const firstPacked = packed[0];
	const otherPacked = packed.find((fish) => firstPacked && !sameFish(fish, firstPacked));
	if (firstPacked && otherPacked)
		found.push(`One says ${fishText(firstPacked)} went in, another ${fishText(otherPacked)}.`);
	const alive = bag.arrivals.map((one) => one.alive);
	const otherAlive = alive.find((fish) => alive[0] && !sameFish(fish, alive[0]));
	if (alive[0] && otherAlive)
		found.push(`One says ${fishText(alive[0])} arrived alive, another ${fishText(otherAlive)}.`);
	const arrival = bag.arrivals.at(-1);
	const wentIn = howManyFish(totalOf(bag.contents));
	if (arrival && wentIn > 0 && howManyFish(arrival.alive) + arrival.dead !== wentIn) {
		found.push(`${wentIn} went in, ${howManyFish(arrival.alive) + arrival.dead} came out.`);
	}
	if (bag.givenBack && bag.arrivals.length)
		found.push('One says it was given back, another that it arrived.');
	if (bag.failed && bag.failed.how !== 'died' && bag.arrivals.length)
		found.push('One says it did not get there, another that it arrived.');
	return found;
}
