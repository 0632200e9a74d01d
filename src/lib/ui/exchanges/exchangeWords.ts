/** Words about exchanges for screens. */
import type { ExchangeNeed, ExchangeNow } from '#club/exchanges/exchangeStage.ts';
import type { ExchangeRow, Side } from '#club/exchanges/exchangeRow.ts';
import { dateWords } from '#ui/shared/dateWords.ts';
import type { WordOf } from '#ui/shared/statusWords.ts';

export const needWords: { readonly [Need in ExchangeNeed]: string } = {
	'promised twice': 'Promised twice: more fish are promised than this group has',
	'not arrived': 'The bag has not arrived after three days',
	'meeting called off': 'Its meeting was called off: agree on another way',
	'the day has come': 'The day that it was put off to has come'
};

export const waitWords: { readonly [Wait in Exclude<ExchangeRow['waitsForMe'], ''>]: string } = {
	answer: 'Your answer is waited for',
	bag: 'Agreed: yours to bag',
	receive: 'On its way to you',
	send: 'Not sent yet',
	'plan B': 'They said no: is there another way?'
};

export function stageWord(now: ExchangeNow): WordOf<'exchange'> {
	return now.word as WordOf<'exchange'>;
}

export function stageBecause(now: ExchangeNow): string {
	return now.word === 'put off' && now.until ? `until ${dateWords(now.until, new Date())}` : '';
}

export function answerWords(answer: NonNullable<Side['answer']>): string {
	const word = { yes: 'Yes', no: 'No', later: 'Later' }[answer.answer];
	const until =
		answer.answer === 'later' && answer.until ? `, not before ${dateWords(answer.until, new Date())}` : '';
	return `${word}${until}${answer.reason ? `: ${answer.reason}` : ''}`;
}
