/** What the tests of the device end call inside the browser. */
import { open, type ClubClient } from '#workers/clubClient.ts';
import { forgetPerson, knownPeople, rememberPerson } from '#sync/people.ts';
import { DeviceStore } from '#sync/deviceStore.ts';

declare global {
	interface Window {
		harness: typeof harness;
		club: ClubClient;
	}
}

const harness = {
	open(club: string, member: string, device: string): Promise<void> {
		document.cookie = `seat=${member}.${device}; path=/`;
		window.club = open({ club, member, device, serverUrl: location.origin });
		return window.club.opened;
	},
	signOutOfServer(): void {
		document.cookie = 'seat=; path=/; max-age=0';
	},
	signIn(member: string, device: string): void {
		document.cookie = `seat=${member}.${device}; path=/`;
	},
	/** Writes texts, each an entry of its own. */
	async write(texts: string[], audience: `room:${string}` | 'club' | 'officers' = 'club'): Promise<string[]> {
		const ids: string[] = [];
		for (const text of texts) ids.push((await window.club.write([draft(text)], { audience }))[0]!.id);
		return ids;
	},
	/** Writes texts as one writing. */
	async writeTogether(texts: string[]): Promise<string[]> {
		return (await window.club.write(texts.map(draft))).map((entry) => entry.id);
	},
	/** Notes of the entries that this page's fold has, sorted. */
	async notes(): Promise<string[]> {
		const told = await window.club.ask('entriesOf', {});
		return told.map(({ entry }) => String((entry.body as { note?: unknown }).note)).sort();
	},
	/** What is kept beside the entries. */
	async meta(key: string): Promise<unknown> {
		const { club, member } = window.club.place;
		const store = new DeviceStore(club, member, { putBack: () => {}, madeRoom: () => {} });
		const value = await store.meta(key);
		await store.close();
		return value;
	},
	people: { rememberPerson, knownPeople, forgetPerson }
};

function draft(note: string) {
	return { kind: 'group/counted', happened: '2026-03-14', about: ['group-1'], body: { note } };
}

window.harness = harness;
