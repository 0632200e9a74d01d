/**
 * A fast yes for bodies as our own app writes them. The schemas stay the one truth: whatever this check does not say
 * yes to is asked of its schema, which rejects it or takes out what does not belong. Built from the schema's own
 * description, without making code from text, which the pages' content policy forbids.
 */
import type { z } from 'zod/mini';

type Check = (value: unknown) => boolean;
type Schema = z.core.$ZodType;

/**
 * Is this value surely what the schema makes of it: every field there and right, none beside them?
 *
 * @returns a check that says yes only where `schema.parse(value)` gives an equal value; it may say no to others
 */
export function quickCheck(schema: Schema): Check {
	const { def } = (schema as z.core.$ZodTypes)._zod;
	const base = baseCheck(def);
	const checks = (def.checks ?? []).map(partCheck);
	if (checks.length === 0) return base;
	return (value) => {
		if (!base(value)) return false;
		for (const check of checks) if (!check(value)) return false;
		return true;
	};
}

function baseCheck(def: z.core.$ZodTypes['_zod']['def']): Check {
	switch (def.type) {
		case 'string':
			// A format of its own or a conversion is the schema's business.
			return 'format' in def || ('coerce' in def && def.coerce) ? never : isString;
		case 'boolean':
			return (value) => value === true || value === false;
		case 'number':
			return 'format' in def && def.format === 'safeint' ? Number.isSafeInteger : never;
		case 'enum':
			return oneOf(Object.values(def.entries));
		case 'literal':
			return oneOf(def.values);
		case 'nullable': {
			const inner = quickCheck(def.innerType);
			return (value) => value === null || inner(value);
		}
		case 'array':
			return arrayCheck(quickCheck(def.element));
		case 'object':
			return def.catchall ? never : objectCheck(def.shape);
		case 'union':
			return 'discriminator' in def ? choiceCheck(def as z.core.$ZodDiscriminatedUnionDef) : never;
		default:
			return never;
	}
}

const never: Check = () => false;
const isString: Check = (value) => typeof value === 'string';

function oneOf(values: readonly unknown[]): Check {
	return (value) => values.includes(value);
}

function arrayCheck(element: Check): Check {
	return (value) => {
		if (!Array.isArray(value)) return false;
		for (const one of value as unknown[]) if (!element(one)) return false;
		return true;
	};
}

function objectCheck(shape: Readonly<Record<string, Schema>>): Check {
	const fields = Object.keys(shape);
	const checks = Object.values(shape).map(quickCheck);
	return (value) => {
		if (typeof value !== 'object' || value === null) return false;
		const given = value as Record<string, unknown>;
		// As many fields as the schema has, and each of them right: then none is left over.
		if (howManyFields(given) !== fields.length) return false;
		for (let i = 0; i < fields.length; i++)
			if (!(checks[i] as Check)(given[fields[i] as string])) return false;
		return true;
	};
}

/** Inherited fields are counted too, and make it a no. A list of the names would be made only to be thrown away. */
function howManyFields(given: object): number {
	let count = 0;
	for (const _field in given) count++;
	return count;
}

/** A union whose options tell themselves apart by one field of fixed words. */
function choiceCheck(def: z.core.$ZodDiscriminatedUnionDef): Check {
	const options = new Map<unknown, Check>();
	for (const option of def.options) {
		const { def: shaped } = (option as z.core.$ZodTypes)._zod;
		const word =
			shaped.type === 'object' ? (shaped.shape[def.discriminator] as z.core.$ZodTypes)._zod.def : null;
		if (word?.type !== 'literal') return never;
		for (const value of word.values) options.set(value, quickCheck(option));
	}
	return (value) => {
		if (typeof value !== 'object' || value === null) return false;
		const option = options.get((value as Record<string, unknown>)[def.discriminator]);
		return option !== undefined && option(value);
	};
}

function partCheck(check: z.core.$ZodCheck<never>): Check {
	const def = check._zod.def as z.core.$ZodChecks['_zod']['def'] | z.core.$ZodCustomDef;
	switch (def.check) {
		case 'min_length':
			return (value) => (value as string).length >= def.minimum;
		case 'max_length':
			return (value) => (value as string).length <= def.maximum;
		case 'greater_than':
			return atLeast(Number(def.value), def.inclusive);
		case 'less_than':
			return atMost(Number(def.value), def.inclusive);
		case 'string_format':
			return patternCheck(def.format === 'regex' ? def.pattern : undefined);
		case 'custom':
			return (value) => (def as { fn: (value: unknown) => unknown }).fn(value) === true;
		default:
			return never;
	}
}

function atLeast(limit: number, inclusive: boolean): Check {
	return (value) => (inclusive ? (value as number) >= limit : (value as number) > limit);
}

function atMost(limit: number, inclusive: boolean): Check {
	return (value) => (inclusive ? (value as number) <= limit : (value as number) < limit);
}

function patternCheck(pattern: RegExp | undefined): Check {
	// A pattern that remembers where it stopped would answer differently the second time.
	if (!pattern || pattern.global || pattern.sticky) return never;
	return (value) => pattern.test(value as string);
}
