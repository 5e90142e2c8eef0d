/**
 * The time that a new event is given: the clock's, but later than every event that this device has of the job, by a
 * millisecond at least. So a log is always in the order of its times, whatever is done to the clocks, and any number of
 * devices that hold the same events put them into the same order (a hybrid logical clock, after Kulkarni and others, 2014).
 */
export const momentAfter = (lastAt: number, now: number): number => Math.max(now, lastAt + 1);
