/** The command line of this process. */
import { main } from './command.ts';
import { machine } from './machine.ts';

process.exitCode = await main(machine());
