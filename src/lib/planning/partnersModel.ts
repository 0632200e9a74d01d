import type { PartnersAsked, PossibleBag } from './partners.ts';

/**
 * The choice of partners as a mixed-integer linear model, in the CPLEX LP text that HiGHS reads.
 *
 * b0, b1, ... are the possible bags, 0 or 1. The mean inbreeding is linear in them. The kinship of the whole line,
 * c'theta c, is not: with t = theta c it equals (1/rooms) (sum t_i + sum over bags i -> j of (1/2 m_j) b (t_i - t_j)), and each
 * product of a bag with a difference becomes a number z that two inequalities hold from below (McCormick 1976). That
 * is exact for any theta, also one that is no true kinship matrix.
 *
 * The objective is multiplied by the number of rooms, less its constant; it and the costs of trips are scaled so that
 * no factor is too large or too small for the solver, whatever units were used.
 */
export function partnersModel(asked: PartnersAsked, bags: readonly PossibleBag[]): string {
	const { males, theta, bagsOutMax, lambdaGlobal, tripBudget } = asked;
	const rooms = males.length;
	const scale = 1 / Math.max(1, lambdaGlobal);
	const objective = bags.map(({ from, to }, b) =>
		term((scale * (theta[from]![to]! - theta[to]![to]!)) / males[to]!, `b${b}`)
	);
	const rows: string[] = [];
	const free: string[] = [];
	for (let room = 0; room < rooms; room++) {
		const into = bags.flatMap(({ to }, b) => (to === room ? [term(1, `b${b}`)] : []));
		const out = bags.flatMap(({ from }, b) => (from === room ? [term(1, `b${b}`)] : []));
		if (into.length > 0) rows.push(`${into.join('\n')} <= 1`);
		if (out.length > bagsOutMax[room]!) rows.push(`${out.join('\n')} <= ${bagsOutMax[room]}`);
	}
	if (tripBudget !== undefined) {
		// No bag costs more than the budget alone, so the parts lie between 0 and 1.
		const costs = bags.flatMap(({ cost }, b) => (cost === 0 ? [] : [term(cost / tripBudget, `b${b}`)]));
		if (costs.length > 0) rows.push(`${costs.join('\n')} <= 1`);
	}
	if (lambdaGlobal > 0) {
		for (let i = 0; i < rooms; i++) {
			objective.push(term(scale * lambdaGlobal, `t${i}`));
			free.push(`t${i} free`);
			const own = theta[i]!.reduce((sum, kinship) => sum + kinship, 0) / rooms;
			const moved = bags.flatMap(({ from, to }, b) => {
				const change = (theta[i]![from]! - theta[i]![to]!) / (2 * males[to]! * rooms);
				return change === 0 ? [] : [term(-change, `b${b}`)];
			});
			rows.push(`${[`t${i}`, ...moved].join('\n')} = ${own}`);
		}
		const shares = shareLimits(asked, bags);
		for (const [b, { from, to }] of bags.entries()) {
			const gaps = theta[from]!.map((kinship, room) => kinship - theta[to]![room]!);
			const most = greatest(gaps, shares);
			const least = -greatest(
				gaps.map((gap) => -gap),
				shares
			);
			objective.push(term((scale * lambdaGlobal) / (2 * males[to]!), `z${b}`));
			free.push(`z${b} free`);
			rows.push(`z${b} ${term(-least, `b${b}`)} >= 0`);
			rows.push(`z${b} - t${from} + t${to} ${term(-most, `b${b}`)} >= ${-most}`);
		}
	}
	const numbered = rows.map((row, i) => `r${i}: ${row}`);
	return [
		...['Minimize', `obj: ${objective.join('\n') || '0 b0'}`, 'Subject To', ...numbered],
		...(free.length > 0 ? ['Bounds', ...free] : []),
		...['Binary', bags.map((_, b) => `b${b}`).join('\n'), 'End']
	].join('\n');
}

const term = (factor: number, name: string) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`;

/** Least and greatest share of the next genes that can come from each room. */
function shareLimits({ males, bagsOutMax }: PartnersAsked, bags: readonly PossibleBag[]): [number, number][] {
	const rooms = males.length;
	return males.map((_, room) => {
		const takes = bags.some(({ to }) => to === room);
		const given = bags
			.filter(({ from }) => from === room)
			.map(({ to }) => 1 / (2 * males[to]!))
			.sort((a, b) => b - a)
			.slice(0, bagsOutMax[room]!);
		const more = given.reduce((sum, share) => sum + share, 0);
		return [(1 - (takes ? 1 / (2 * males[room]!) : 0)) / rooms, (1 + more) / rooms];
	});
}

/** The greatest sum of values times shares, when each share has its limits and all sum to 1. */
function greatest(values: readonly number[], limits: readonly (readonly [number, number])[]): number {
	let left = 1;
	let sum = 0;
	for (const [room, [least]] of limits.entries()) {
		left -= least;
		sum += values[room]! * least;
	}
	for (const room of values.map((_, i) => i).sort((a, b) => values[b]! - values[a]!)) {
		const taken = Math.min(left, limits[room]![1] - limits[room]![0]);
		left -= taken;
		sum += values[room]! * taken;
	}
	return sum;
}
