// What a colour field gives, as a quilt's file says colours.

/** CIELAB (D65) of sRGB "#3a6ea5": IEC 61966-2-1, CIE 15. */
export function labOf(hex) {
  const [r, g, b] = [1, 3, 5].map((k) => parseInt(hex.slice(k, k + 2), 16) / 255)
      .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  const [x, y, z] = [
    (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047,
    0.2126 * r + 0.7152 * g + 0.0722 * b,
    (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883,
  ].map((v) => (v > (6 / 29) ** 3 ? Math.cbrt(v) : v / (3 * (6 / 29) ** 2) + 4 / 29));
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)].map((v) => Math.round(v * 100) / 100);
}
