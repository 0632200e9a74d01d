/** One room's breeders among all fish: males from `first`, females from `females`, up to `end`. */
export interface Place {
	readonly first: number;
	readonly females: number;
	readonly end: number;
}
