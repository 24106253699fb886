/** 0 clean, 1 findings at error level (or any, where strict), 2 could not run. */
export const exitCodes = { clean: 0, findings: 1, couldNotRun: 2 } as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
