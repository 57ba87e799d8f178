// Lengths as every text of a plan has them: inches in fractions, rounded to the tape.
const MM_PER_INCH = 25.4;

/** Return a length in words of a job's units; `tape` is its division of the unit, such as "1/64" or "1". */
export function tapeText(mm, units, tape) {
  const [top, under = 1] = tape.split("/").map(Number);
  const steps = Math.round((mm / (units === "in" ? MM_PER_INCH : 1)) * (under / top));
  if (units !== "in") return `${((steps * top) / under).toFixed(under === 1 ? 0 : under > 10 ? 2 : 1)} ${units}`;
  const sign = steps < 0 ? "-" : "";
  const whole = Math.floor((Math.abs(steps) * top) / under);
  const rest = (Math.abs(steps) * top) % under;
  if (!rest) return `${sign}${whole} in`;
  const common = divisor(rest, under);
  return `${sign}${whole ? `${whole} ` : ""}${rest / common}/${under / common} in`;
}

function divisor(a, b) {
  return b ? divisor(b, a % b) : a;
}
