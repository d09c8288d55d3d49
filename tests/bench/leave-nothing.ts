// Browsers stand in process groups of their own, which nobody else ends when the bench is broken off. By leaving through
// `exit` this process takes them along.
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => process.exit(1));
process.once('disconnect', () => process.exit(1));
