/** Makes names that no two phones share. Order never comes from them. */
export type Ids = {
  /** A new random id of 22 characters from A-Z a-z 0-9 - _. */
  readonly newId: () => string;
};
