/** Special functions that the Matérn model needs. */

/** Step of the trapezoidal rule in t; its error falls as exp(−π²/step), below 1e-16 here. */
const STEP = 0.25

/**
 * The modified Bessel function of the second kind K_ν(x), times exp(x).
 *
 * Trapezoidal rule on K_ν(x) = ∫₀^∞ exp(−x cosh t) cosh(νt) dt (DLMF 10.32.9), which
 * converges geometrically because the integrand is analytic and falls doubly exponentially.
 *
 * @param order ν ≥ 0
 * @param x > 0
 */
export function scaledBesselK(order: number, x: number): number {
  let sum = 0.5
  for (let t = STEP; ; t += STEP) {
    // cosh t − 1 = 2 sinh²(t/2) keeps its digits for small t.
    const half = Math.sinh(t / 2)
    const exponent = -2 * x * half * half + order * t
    const term = 0.5 * (Math.exp(exponent) + Math.exp(exponent - 2 * order * t))
    sum += term
    if (term < sum * 1e-17 && exponent < 0) return sum * STEP
  }
}

/** Lanczos coefficients, g = 7, nine terms (from memory; checked against factorials in tests). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
  -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
]

/** The gamma function for a positive argument, to about 1e-14 relative. */
export function gamma(z: number): number {
  if (z < 0.5) return Math.PI / (Math.sin(Math.PI * z) * gamma(1 - z))
  const x = z - 1
  const t = x + 7.5
  let sum = LANCZOS[0]
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i] / (x + i)
  return Math.sqrt(2 * Math.PI) * t ** (x + 0.5) * Math.exp(-t) * sum
}
