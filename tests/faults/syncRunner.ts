/** A real server process for fault tests: `node syncRunner.ts FILE PORT`. Prints its port when it listens. */
import { startSyncServer } from '#tests/server/ledger/syncServer.ts';

const [file, port] = process.argv.slice(2);
if (!file) throw new Error('syncRunner requires a file');
const server = await startSyncServer({ file, port: Number(port ?? 0) });
await server.ledger.createClub('club-1');
process.stdout.write(`listening ${server.port}\n`);
process.on('SIGTERM', () => void server.close().then(() => process.exit(0)));
