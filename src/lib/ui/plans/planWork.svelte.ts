import { bagKey } from '#planning/season/bagKey.ts';
import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import type { PossibleBag, SeasonFigures, SeasonProblem, SexedFish } from '#planning/season/season.ts';
import type { ChoiceName, SeasonChoice } from '#planning/season/seasonChoices.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { seasonStops, type Stop } from '#planning/season/seasonStops.ts';
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';
import type { ClubClient } from '#workers/clubClient.ts';
import { keepPlanDraft, readPlanDraft } from '#workers/planDraft.ts';
import type { KeptPlanB } from './planB.svelte.ts';
import { startTask, TaskStopped, type RunningTask } from '#workers/startTask.ts';
import type { SeasonPlanned } from '#workers/planSeason.ts';

/** A choice of the solver as it is kept: bags by key, and how sure it is that none is better. */
export interface KeptChoice {
	readonly name: ChoiceName;
	readonly sameAs: ChoiceName | null;
	readonly keys: readonly string[];
	readonly bound: number;
	readonly isProven: boolean;
	readonly givenUp: readonly string[];
	readonly clash: readonly string[];
}
interface PlanDraft {
	readonly version: 1;
	readonly settings: SeasonSettings;
	readonly locked: readonly string[];
	readonly banned: readonly string[];
	readonly keys: readonly string[] | null;
	readonly before: readonly (readonly string[])[];
	readonly choices: readonly KeptChoice[];
	/** Left out by an older app. */
	readonly planB?: KeptPlanB | null;
}

export interface ChosenPlan {
	readonly bags: readonly PossibleBag[];
	readonly figures: SeasonFigures;
}

/** How long the solver may look, for all choices together; what it has by then is shown with its distance. */
const seconds = 20;
const stepsKept = 20;

/** A plan that is being worked out: what is wished, what was found, what was changed by hand. Kept on the device. */
export class PlanWork {
	settings = $state.raw<SeasonSettings>(defaultSettings);
	/** Bags that stay whatever is planned again, and bags taken out, by key. */
	locked = $state.raw<readonly string[]>([]);
	banned = $state.raw<readonly string[]>([]);
	/** The bags of the plan as it stands, by key; null = nothing worked out yet. */
	keys = $state.raw<readonly string[] | null>(null);
	/** The plan before each change by hand, the last one at the end. */
	before = $state.raw<readonly (readonly string[])[]>([]);
	choices = $state.raw<readonly KeptChoice[]>([]);
	/** What is best if a bag is refused or a room drops out, kept so that it can be read without a signal. */
	planB = $state.raw<KeptPlanB | null>(null);
	busy = $state(false);
	done = $state(0);
	of = $state(0);
	/** One sentence; '' = none. */
	problem = $state('');
	/** Nothing was chosen yet, here or before. */
	isNew = false;
	readonly #client: ClubClient;
	#running: RunningTask<SeasonPlanned> | undefined;

	constructor(client: ClubClient, given: Partial<SeasonSettings>) {
		this.#client = client;
		const kept = readPlanDraft<PlanDraft>(client.place, 1);
		this.isNew = kept === null && given.meeting === undefined;
		if (kept && Object.keys(given).length === 0) Object.assign(this, kept);
		else this.settings = { ...defaultSettings, ...kept?.settings, ...given, without: [] };
	}

	set(some: Partial<SeasonSettings>): void {
		this.isNew = false;
		this.settings = { ...this.settings, ...some };
		this.#keep();
	}

	/** Works the plan out. @param rest what is locked stays, what was taken out stays out */
	async run({ rest = false } = {}): Promise<void> {
		this.stop();
		if (!rest) [this.locked, this.banned] = [[], []];
		[this.busy, this.problem, this.done, this.of] = [true, '', 0, 0];
		const settings = { ...this.settings, locked: this.locked, banned: this.banned };
		let mine: RunningTask<SeasonPlanned> | undefined;
		try {
			const { problem } = await this.#client.ask('seasonProblem', { settings });
			mine = startTask('planSeason', { problem, seconds }, ({ done, of, soFar }) => {
				if (this.#running !== mine) return;
				[this.done, this.of] = [done, of];
				if (soFar) this.#take((soFar as SeasonPlanned).choices);
			});
			this.#running = mine;
			const { choices } = await mine.answer;
			if (this.#running === mine) this.#take(choices);
		} catch (error) {
			if (error instanceof TaskStopped) return;
			this.problem = 'The plan could not be worked out on this device. Try again, or ask for fewer lines.';
		} finally {
			if (this.#running === mine) this.busy = false;
		}
	}

	stop(): void {
		const running = this.#running;
		this.#running = undefined;
		running?.stop();
		this.busy = false;
	}

	/** Nothing of it stays on the device. */
	throwAway(): void {
		this.stop();
		keepPlanDraft(this.#client.place, null);
		[this.settings, this.locked, this.banned, this.keys] = [defaultSettings, [], [], null];
		[this.before, this.choices, this.planB] = [[], [], null];
	}

	/** A change by hand; `undo` takes it back. */
	change(keys: readonly string[]): void {
		this.before = [...this.before, this.keys ?? []].slice(-stepsKept);
		this.keys = [...new Set(keys)];
		this.locked = this.locked.filter((key) => keys.includes(key));
		this.#keep();
	}
	undo(): void {
		this.keys = this.before.at(-1) ?? this.keys;
		this.before = this.before.slice(0, -1);
		this.banned = this.banned.filter((key) => !this.keys?.includes(key));
		this.#keep();
	}
	takeOut(key: string): void {
		this.banned = [...this.banned, key];
		this.change((this.keys ?? []).filter((each) => each !== key));
	}
	/** Something chosen by hand stays when the rest is planned again. */
	replace(key: string, by: string): void {
		this.change((this.keys ?? []).map((each) => (each === key ? by : each)));
		this.lock(by, true);
	}
	lock(key: string, stays: boolean): void {
		this.locked = stays ? [...new Set([...this.locked, key])] : this.locked.filter((each) => each !== key);
		this.#keep();
	}

	keepPlanB(found: KeptPlanB): void {
		this.planB = found;
		this.#keep();
	}

	#take(choices: readonly SeasonChoice[]): void {
		this.choices = choices.map(({ name, sameAs, plan }) => ({
			...{ name, sameAs, keys: plan.bags.map(({ key }) => key), bound: Math.max(plan.bound, -1e300) },
			...{ isProven: plan.isProven, givenUp: plan.givenUp, clash: plan.clash }
		}));
		this.keys = this.choices[0]?.keys ?? [];
		this.before = [];
		this.#keep();
	}

	#keep(): void {
		const { settings, locked, banned, keys, before, choices, planB } = this;
		const draft: PlanDraft = { version: 1, settings, locked, banned, keys, before, choices, planB };
		keepPlanDraft(this.#client.place, draft);
	}
}

/** The bags of these keys, those left out whose fish or room are no longer there; swaps of two rooms side by side. */
export function chosenPlan({ problem, words }: SeasonAsked, keys: readonly string[]): ChosenPlan {
	const bags = bagsOfKeys(problem, keys);
	const place = (bag: PossibleBag) => {
		const rooms = [roomTo(problem, bag), roomFrom(problem, bag)].map((room) => words.rooms[room]!.name);
		return `${rooms.toSorted().join()} ${words.lines[bag.line]!.name} ${bag.key}`;
	};
	const sorted = bags.toSorted((a, b) => place(a).localeCompare(place(b)));
	return { bags: sorted, figures: seasonFigures(problem, sorted) };
}

export const roomTo = (problem: SeasonProblem, bag: PossibleBag) => problem.holdings[bag.holding]!.room;
export const roomFrom = (problem: SeasonProblem, bag: PossibleBag) =>
	problem.sources[bag.gives[0]!.source]!.room;

/** What stands against the plan as it is, wishes aside: those are told apart. */
export function stopsOf(problem: SeasonProblem, bags: readonly PossibleBag[]): Stop[] {
	return seasonStops(problem, bags).filter(({ stop }) => stop !== 'wish' && stop !== 'tooClose');
}

/** The key of a bag with other fish. */
export function withFish(problem: SeasonProblem, bag: PossibleBag, fish: SexedFish): string {
	const gives = bag.gives.map((give, i) => (i === 0 ? { ...give, fish } : give));
	return bagKey(problem, { holding: bag.holding, gives });
}
