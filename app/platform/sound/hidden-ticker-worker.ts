// A worker's timers go on while its page is hidden and its own timers are held back to one a second.
const TICK_MS = 250;
setInterval(() => postMessage(null), TICK_MS);
