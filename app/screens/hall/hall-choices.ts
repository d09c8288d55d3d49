/** How one phone likes its hall; kept by whoever holds it, never part of a plan. */
export type HallChoices = {
  /** A frame in place of the dark field. */
  readonly steadyField: boolean;
  /** A softer light field, for a projector in a dim hall. */
  readonly softLight: boolean;
};

export const FIRST_CHOICES: HallChoices = { steadyField: false, softLight: false };

/** Reads kept choices; whatever is not a choice is as at first. Never throws. */
export function readChoices(text: string | null): HallChoices {
  try {
    const raw: unknown = JSON.parse(text ?? '{}');
    const { steadyField, softLight } = { ...FIRST_CHOICES, ...(typeof raw === 'object' ? raw : null) };
    return { steadyField: steadyField === true, softLight: softLight === true };
  } catch {
    return FIRST_CHOICES;
  }
}
