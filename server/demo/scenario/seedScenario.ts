/** Fills an empty data folder with the demo club, and opens accounts for three of its members. */
import { insertAccount } from '../../auth/accounts.ts';
import { hashPassword } from '../../auth/passwords.ts';
import type { Config } from '../../config.ts';
import { createApp } from '../../http/app.ts';
import { buildScenario } from './buildScenario.ts';
import { loadScenario } from './loadScenario.ts';
import type { MemberKey } from './names.ts';

export interface ShownAccount {
	readonly name: string;
	readonly part: string;
	readonly signInName: string;
	readonly password: string;
}

const demoSeed = 1;
const shown: { readonly [Key in MemberKey]?: { readonly part: string; readonly password: string } } = {
	maud: { part: 'officer, coordinates two lines', password: 'slow grey heron' },
	ines: { part: 'keeper, shares a room', password: 'quiet copper kettle' },
	fenn: { part: 'keeper of killifish', password: 'warm moss lantern' }
};

/**
 * @param config of a data folder that is empty; the server must not be running on it
 * @param now the end of the scenario: the present
 */
export async function seedScenario(config: Config, now: Date): Promise<readonly ShownAccount[]> {
	let time = 0;
	const app = await createApp(config, () => time);
	try {
		// A folder that is thrown away need not survive a power cut; hundreds of commits then take a second or two.
		await app.database.alone(() => app.database.sqlite.exec('PRAGMA synchronous = OFF'));
		const scenario = buildScenario({ seed: demoSeed, now });
		const hashes = new Map<MemberKey, string>();
		for (const key of scenario.shown) hashes.set(key, await hashPassword(shown[key]?.password ?? ''));
		await loadScenario(
			{
				...{ db: app.db, record: app.record, ledger: app.ledger },
				setClock: (to) => void (time = to),
				// No password belongs to an empty hash: the others cannot sign in until an officer gives them a link.
				accountOf: (transaction, { key }, at) =>
					insertAccount(transaction, { signInName: key, passwordHash: hashes.get(key) ?? '' }, at)
			},
			scenario
		);
		return scenario.shown.flatMap((key) => {
			const account = shown[key];
			const name = scenario.members.find((member) => member.key === key)?.name ?? key;
			return account ? [{ name, signInName: key, ...account }] : [];
		});
	} finally {
		await app.close();
	}
}
