import type { Kind } from './kind.ts';

/** Brings a body of an older version of its kind to the newest, step by step (SPEC R6). */
export function upgradeBody(kind: Pick<Kind<unknown>, 'upgrades'>, version: number, body: unknown): unknown {
	let upgraded = body;
	for (const step of kind.upgrades ?? []) if (version < step.to) upgraded = step.up(upgraded);
	return upgraded;
}
