/** What is written about a line by those who look after it. */
import type { Draft, ThingId } from '#records/entry.ts';
import type { LineDefinition, LineRules } from '#records/state.ts';

export function lineOpened(line: ThingId, happened: string, definition: LineDefinition): Draft {
	return { kind: 'line/opened', happened, about: [line], body: { line, definition } };
}

export function lineDescribed(line: ThingId, happened: string, definition: LineDefinition): Draft {
	return { kind: 'line/described', happened, about: [line], body: { line, definition } };
}

export function rulesSet(line: ThingId, happened: string, rules: LineRules): Draft {
	return { kind: 'line/rulesSet', happened, about: [line], body: { line, rules } };
}

export function standardSet(line: ThingId, happened: string, text: string, throws: string): Draft {
	return { kind: 'line/standardSet', happened, about: [line], body: { line, text, throws } };
}

export function stateSaid(
	line: ThingId,
	happened: string,
	state: 'retired' | 'lost' | 'kept',
	reason: string
): Draft {
	return { kind: 'line/stateSaid', happened, about: [line], body: { line, state, reason } };
}

export const emptyDefinition: LineDefinition = {
	code: '',
	name: '',
	kind: 'conservation',
	fishGroup: 'other',
	taxonVerbatim: '',
	taxonTidy: '',
	localityVerbatim: '',
	localityCode: '',
	source: '',
	movement: 'none'
};
