import { timeEngine } from './engine-work.ts';

process.stdout.write(JSON.stringify(timeEngine(() => performance.now())));
