import type { Family } from '#pedigree/family/family.ts';
import type { Drawing } from './drawing.ts';
import type { LayoutAnswer } from './layoutWorker.ts';

export interface FamilyLayout {
	/** The drawing of the family as it was last laid out; null until there is one. */
	readonly drawing: Drawing | null;
	readonly busy: boolean;
	/** Groups that have their place, of all. */
	readonly placed: number;
	readonly all: number;
	/** One sentence; '' = none. */
	readonly problem: string;
	readonly stopped: boolean;
	stop(): void;
	again(): void;
}

/**
 * Follows a family with its drawing. Call it while a component starts, as any rune.
 *
 * A new drawing is made only when what is drawn has changed; one that is under way for an older family is given up.
 */
export function familyLayout(family: () => Family | undefined): FamilyLayout {
	let drawing = $state.raw<Drawing | null>(null);
	let busy = $state(false);
	let placed = $state(0);
	let all = $state(0);
	let problem = $state('');
	let stopped = $state(false);
	let turn = $state(0);
	let worker: Worker | null = null;
	const text = $derived.by(() => {
		const given = family();
		return given ? JSON.stringify(given) : '';
	});

	function end() {
		worker?.terminate();
		worker = null;
		busy = false;
	}

	$effect(() => {
		// Read, so that "try again" runs this anew.
		void turn;
		if (!text) return;
		const mine = new Worker(new URL('./layoutWorker.ts', import.meta.url), {
			type: 'module',
			name: 'family'
		});
		worker = mine;
		[busy, placed, problem, stopped] = [true, 0, '', false];
		mine.addEventListener('message', ({ data }: MessageEvent<LayoutAnswer>) => {
			if (worker !== mine) return;
			if (data.type === 'progress') [placed, all] = [data.placed, data.all];
			else {
				drawing = data.drawing;
				end();
			}
		});
		mine.addEventListener('error', () => {
			if (worker !== mine) return;
			end();
			problem = 'This drawing could not be made on this device. The table below has the same.';
		});
		mine.postMessage(JSON.parse(text) as Family);
		return end;
	});

	return {
		get drawing() {
			return drawing;
		},
		get busy() {
			return busy;
		},
		get placed() {
			return placed;
		},
		get all() {
			return all;
		},
		get problem() {
			return problem;
		},
		get stopped() {
			return stopped;
		},
		stop() {
			end();
			stopped = true;
		},
		again() {
			turn++;
		}
	};
}
