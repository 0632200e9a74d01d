/** How far an exchange has come, from its answers and bags (SPEC R60 to R62); what time does to it is asked later. */
import type { Bag, BagStage, Exchange, ExchangeStage } from './state.ts';

/** @param bags the exchange's bags, each once */
export function finishExchange(exchange: Exchange, bags: readonly Bag[]): Exchange {
	exchange.stage = stageOf(exchange, bags);
	return exchange;
}

function stageOf(exchange: Exchange, bags: readonly Bag[]): ExchangeStage {
	const byBags = stageByBags(bags);
	if (byBags) return byBags;
	if (exchange.calledOff) return 'called off';
	const sides = new Set([
		...exchange.gives.map((give) => give.fromRoom),
		...(exchange.toRoom ? [exchange.toRoom] : [])
	]);
	const answers = exchange.answers.filter((given) => sides.has(given.room));
	if (answers.some((given) => given.answer === 'no')) return 'declined';
	if (answers.some((given) => given.answer === 'later')) return 'put off';
	if (sides.size > 0 && answers.length === sides.size) return 'agreed';
	return exchange.asked ? 'asked' : 'proposed';
}

function stageByBags(bags: readonly Bag[]): ExchangeStage | null {
	const order: readonly BagStage[] = ['bagged', 'handed over', 'arrived', 'settled'];
	const under = bags.filter((bag) => order.includes(bag.stage));
	// The exchange is as far as the bag that is furthest behind; failed only when every bag failed.
	const least = order.find((stage) => under.some((bag) => bag.stage === stage));
	if (least) return least as ExchangeStage;
	return bags.length > 0 && bags.every((bag) => bag.stage === 'failed') ? 'failed' : null;
}
