/** Commands of the contract that this version does not know yet, and what to use instead. */
export const commandsNotBuilt: Readonly<Record<string, string>> = {};
