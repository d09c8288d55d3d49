type OtherWindowProps = {
  /** Takes the class over; null where that cannot be. */
  readonly onRunHere: (() => void) | null;
};

/** Only one window runs a class: this one neither shows, sounds nor keeps anything. */
export function OtherWindow({ onRunHere }: OtherWindowProps) {
  return (
    <section class="hall-page other-window">
      <h1>This class runs in another window</h1>
      <p>Two windows would count over each other, so this one stands back.</p>
      {onRunHere !== null && (
        <button type="button" onClick={onRunHere}>
          Run it here
        </button>
      )}
    </section>
  );
}
