import './page-top.css';

/** The head of a page that is read: the way back, then what the page is. */
export function PageTop({
  title,
  back,
}: {
  readonly title: string;
  readonly back: { readonly href: string; readonly name: string };
}) {
  return (
    <header class="page-top">
      <a class="page-back" href={back.href}>
        <svg width="24" height="16" viewBox="0 0 24 16" aria-hidden="true">
          <path d="M10 1 3 8l7 7M3 8h21" fill="none" stroke="currentColor" stroke-width="3" />
        </svg>
        {back.name}
      </a>
      <h1 class="page-title">{title}</h1>
    </header>
  );
}
