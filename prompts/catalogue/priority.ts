/** The order in which calls get the one voice, most urgent first. */
export const PRIORITIES = ['stop', 'alarm', 'refusal', 'timer', 'step', 'chatter'] as const;

/** How urgent a call is. */
export type Priority = (typeof PRIORITIES)[number];

/** 0 for the most urgent; smaller wins. */
export const rankOf = (priority: Priority): number => PRIORITIES.indexOf(priority);
