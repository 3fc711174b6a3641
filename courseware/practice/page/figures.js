// Exact figures: fractions of whole numbers of any length, as marking has them. Nothing here is ever a float.

/** @typedef {{n: bigint, d: bigint}} Fraction numerator and denominator, in lowest terms, d above 0 */

/**
 * A fraction in lowest terms.
 * @param {bigint} n @param {bigint} d not 0 @returns {Fraction}
 */
export function fraction(n, d = 1n) {
  let [a, b] = [n < 0n ? -n : n, d < 0n ? -d : d];
  while (b) [a, b] = [b, a % b];
  const sign = d < 0n ? -1n : 1n;
  return { n: (sign * n) / (a || 1n), d: (sign * d) / (a || 1n) };
}

/**
 * The figure of an exact text: `910`, `-0.125`, `.5` or `37/3`.
 * @param {string} text @returns {Fraction}
 */
export function exact(text) {
  const [over, under] = text.split("/");
  if (under !== undefined) return fraction(BigInt(over), BigInt(under));
  const [whole, decimals = ""] = text.split(".");
  return fraction(BigInt(whole + decimals || "0"), 10n ** BigInt(decimals.length));
}

/** @param {Fraction} a @param {Fraction} b */
export const same = (a, b) => a.n === b.n && a.d === b.d;
/** @param {Fraction} a @param {Fraction} b */
export const notAbove = (a, b) => a.n * b.d <= b.n * a.d;
/** @param {Fraction} a @param {Fraction} b */
export const plus = (a, b) => fraction(a.n * b.d + b.n * a.d, a.d * b.d);
/** @param {Fraction} a @param {Fraction} b */
export const minus = (a, b) => fraction(a.n * b.d - b.n * a.d, a.d * b.d);
/** @param {Fraction} a @param {Fraction} b */
export const times = (a, b) => fraction(a.n * b.n, a.d * b.d);
/** @param {Fraction} a @param {Fraction} b not 0 */
export const shared = (a, b) => fraction(a.n * b.d, a.d * b.n);
/** @param {Fraction} a */
export const size = (a) => (a.n < 0n ? { n: -a.n, d: a.d } : a);

/**
 * Rounded to so many decimals, halves upwards.
 * @param {Fraction} a @param {number} places @returns {Fraction}
 */
export function halfUp(a, places) {
  const scale = 10n ** BigInt(places);
  const [over, under] = [2n * a.n * scale + a.d, 2n * a.d];
  const down = over / under - (over % under < 0n ? 1n : 0n);
  return fraction(down, scale);
}

/**
 * Cut off to so many decimals, towards nothing.
 * @param {Fraction} a @param {number} places @returns {Fraction}
 */
export function cutOff(a, places) {
  const scale = 10n ** BigInt(places);
  return fraction((a.n * scale) / a.d, scale);
}

/**
 * Whether a figure has a decimal that ends.
 * @param {Fraction} a
 */
export function ends(a) {
  let left = a.d;
  for (const prime of [2n, 5n]) while (left % prime === 0n) left /= prime;
  return left === 1n;
}

/**
 * The figure exactly: a plain decimal of up to six places where there is one, else `37/3`.
 * @param {Fraction} a
 */
export function exactText(a) {
  for (let places = 0; places <= 6; places += 1) {
    const scaled = times(a, fraction(10n ** BigInt(places)));
    if (scaled.d !== 1n) continue;
    const digits = String(size(scaled).n).padStart(places + 1, "0");
    const whole = digits.slice(0, digits.length - places);
    return (a.n < 0n ? "-" : "") + (places ? `${whole}.${digits.slice(-places)}` : whole);
  }
  return `${a.n}/${a.d}`;
}
