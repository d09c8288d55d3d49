import type { ComponentChildren } from 'preact';
import './ink-link.css';

/** The one thing to press on a page: a slab of ink, 64 px, as wide as its place. */
export function InkLink({ href, children }: { readonly href: string; readonly children: ComponentChildren }) {
  return (
    <a class="ink-link" href={href}>
      {children}
    </a>
  );
}
