/** Answers of the server's plain HTTP interface that a device reads. */

/** `GET /api/me`: who is signed in on this browser; 401 for nobody. */
export interface Me {
	readonly clubs: readonly MySeat[];
	/** True when an officer's link opened this sign-in for one club only. */
	readonly confined: boolean;
	/** False when the address is neither https nor this machine: phones then keep nothing for days without signal. */
	readonly offlineWorks: boolean;
}

export interface MySeat {
	readonly club: string;
	readonly clubName: string;
	readonly member: string;
	readonly name: string;
	/** What this browser is as this member. */
	readonly device: string;
	/** `of`: line or meeting; '' for officers. */
	readonly roles: readonly { readonly role: string; readonly of: string }[];
}

/** `POST /api/clubs/<club>/numbers`: the same `request` again gets the same blocks. */
export interface NumbersAsked {
	/** The device's own name for this request, a UUID. */
	readonly request: string;
	/** 1 to 3. */
	readonly blocks: number;
}
export interface NumbersGiven {
	readonly blocks: readonly { readonly first: number; readonly last: number }[];
}

/** `GET /api/clubs/<club>/contacts/<exchange>`: the other side of an agreed exchange, never kept by the device. */
export interface ContactsShown {
	readonly contacts: readonly {
		readonly member: string;
		readonly name: string;
		readonly email: string;
		readonly phone: string;
		readonly street: string;
		/** For a minor: who handles contact. */
		readonly guardian: string;
	}[];
}

/** Any answer that is not 2xx. */
export interface Refusal {
	readonly code: string;
	readonly sentence: string;
	readonly whatToDo: string;
}
