/**
 * A length of time as ISO 8601-1 writes it, from days down to minutes: `PT45M`, `PT5H30M`, `P60D`.
 * @param minutes 0 or more; rounded to the minute, from two days on to the hour, from ten days on to the day
 */
export function isoDuration(minutes: number): string {
  const step = minutes >= 10 * DAY_MIN ? DAY_MIN : minutes >= 2 * DAY_MIN ? 60 : 1;
  const whole = Math.round(Math.max(0, minutes) / step) * step;
  const days = Math.floor(whole / DAY_MIN);
  const hours = Math.floor((whole % DAY_MIN) / 60);
  const rest = whole % 60;
  const time = `${hours === 0 ? '' : `${hours}H`}${rest === 0 ? '' : `${rest}M`}`;
  if (days === 0 && time === '') return 'PT0M';
  return `P${days === 0 ? '' : `${days}D`}${time === '' ? '' : `T${time}`}`;
}

const DAY_MIN = 1440;
