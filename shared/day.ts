/** The day of a time (milliseconds) where the clock hangs, as ISO 8601 writes it: `2026-11-29`. */
export function dayOf(at: number): string {
  const day = new Date(at);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}
