/** Days and moments as people read them, in their own language and time. */

export function showMoment(told: string, language: string): string {
  const moment = new Date(/[zZ]|[+-]\d\d:\d\d$/.test(told) ? told : `${told}Z`);
  if (Number.isNaN(moment.getTime())) return told;
  return new Intl.DateTimeFormat(language, { dateStyle: "medium", timeStyle: "short" }).format(
    moment,
  );
}

/** A day told as `2026-04-06`, whatever the time zone of the reader. */
export function showDay(told: string, language: string): string {
  const moment = new Date(`${told.slice(0, 10)}T12:00:00Z`);
  if (Number.isNaN(moment.getTime())) return told;
  const ways: Intl.DateTimeFormatOptions = {
    weekday: "short",
    day: "numeric",
    month: "short",
    timeZone: "UTC",
  };
  return new Intl.DateTimeFormat(language, ways).format(moment);
}

/** Today in this place, as `2026-04-06`. */
export function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
