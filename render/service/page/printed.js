/* Numbers and units as the pages print them. */

const units = { um: "µm", uin: "µin", urad: "µrad", arcsec: "″", deg: "°", "um/m": "µm/m" };
export const unit = (word) => units[word] ?? word;
export const number = (value, digits) => value.toFixed(digits).replace("-", "−");

/* Decimals that an expanded uncertainty deserves: two of its digits (GUM 7.2.6); without one, three digits of the value. */
export function decimals(uncertainty, value) {
  const digits = uncertainty ? 1 - Math.floor(Math.log10(Number(uncertainty.toPrecision(2)))) : value ? 2 - Math.floor(Math.log10(Math.abs(value))) : 2;
  return Math.min(6, Math.max(0, digits));
}
