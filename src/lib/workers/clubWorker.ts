/** Entry file of the club worker: one for each tab, started by clubClient. */
import { serveClub, type WorkerScope } from './serveClub.ts';

serveClub(self as unknown as WorkerScope);
