/** The explanation of a scan as a curve that can be laid over it. */
import type { Identification } from '../../minerals/reference'
import type { References } from '../../jobs/references'
import type { Spectrum } from '../../spectra/spectrum'
import { modelReflectance } from '../../minerals/model'
import { percent } from '../numbers'
import type { Curve } from '../charts/spectrum-plot'

export interface Explained {
  readonly model: Curve
  /** Such as `muscovite 62 %, kaolinite 38 %`. */
  readonly words: string
}

/** The references that were found, mixed by their shares of absorption; null where none was. */
export function explainScan(
  { wavelengths }: Spectrum,
  found: Identification | null,
  references: References,
): Explained | null {
  if (!found || found.minerals.length === 0) return null
  const log = new Float64Array(wavelengths.length)
  for (const { mineral, share } of found.minerals) {
    const reference = references.sets
      .flatMap((set) => set.references)
      .find((entry) => entry.mineral === mineral)
    if (!reference) return null
    const own = modelReflectance(reference, wavelengths)
    for (let i = 0; i < log.length; i++) log[i] += share * Math.log(own[i])
  }
  return {
    model: { label: 'explanation', wavelengths, values: log.map(Math.exp), role: 'model' },
    words: found.minerals.map(({ mineral, share }) => `${mineral} ${percent(share)}`).join(', '),
  }
}
