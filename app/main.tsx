import { render } from 'preact';

const host = document.getElementById('app');
if (host === null) throw new Error('index.html has no #app');
render(<main>Hallpace</main>, host);
