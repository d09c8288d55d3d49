import { Figure } from '../parts/figure.tsx';
import { PageTop } from '../parts/page-top.tsx';
import { hashOf } from './router.ts';
import './not-built.css';

/** A place that has an address but no floor yet. */
export function NotBuilt({ title }: { readonly title: string }) {
  return <NothingHere title={title} text="This part of Hallpace is not built yet." />;
}

/** Where an address leads to nothing: the floor ends at a gate post. `text` says why. */
export function NothingHere({ title, text }: { readonly title: string; readonly text: string }) {
  return (
    <main class="page">
      <PageTop title={title} back={{ href: hashOf({ at: 'start' }), name: 'Start' }} />
      <div class="gate-scene">
        <Figure figure="stand" />
      </div>
      <p class="gate-text" role="status">
        {text}
      </p>
    </main>
  );
}
