import type { QuestionAnswer, QuestionArgs, QuestionName } from '#workers/questions.ts';
import { getClub } from './clubContext.ts';

export interface Answer<Value> {
	/** The last answer; undefined until the first one. */
	readonly value: Value | undefined;
	/** No answer to this question yet. */
	readonly loading: boolean;
	/** One sentence; '' = none. */
	readonly problem: string;
}

/**
 * Asks the club on this device and follows the answer. Call it while a component starts, as any rune.
 *
 * @param args read reactively: when what they read changes, the question is asked anew
 */
export function question<Name extends QuestionName>(
	name: Name,
	args: () => QuestionArgs<Name>
): Answer<QuestionAnswer<Name>> {
	const { client } = getClub();
	let value = $state.raw<QuestionAnswer<Name>>();
	let loading = $state(true);
	let problem = $state('');
	let asked: string | undefined;

	$effect(() => {
		const given = $state.snapshot(args()) as QuestionArgs<Name>;
		const text = JSON.stringify(given);
		// Another question's answer must not stand under this one's heading.
		if (text !== asked) {
			asked = text;
			value = undefined;
			loading = true;
			problem = '';
		}
		return client.subscribe(
			name,
			given,
			(answer) => {
				value = answer;
				loading = false;
				problem = '';
			},
			() => {
				// What went wrong in the worker stands in the console; a person is told what to do.
				problem = 'This could not be worked out on this device. Close the page and open it again.';
				loading = false;
			}
		);
	});

	return {
		get value() {
			return value;
		},
		get loading() {
			return loading;
		},
		get problem() {
			return problem;
		}
	};
}
