/**
 * How long measuring a scan takes: `npx tsx tests/bench/check-speed.ts [rounds]`.
 *
 * Library records of a field instrument (2,151 channels, noise of 0.001 put on) as they stand in
 * a block of the store. The least of the rounds is the one that other work disturbed least.
 */
import { measureScan } from '../../src/check/measure-scan'
import { libraryNames, libraryRecord } from '../spectra/library'
import { normal } from '../spectra/chance'

const rounds = Number(process.argv[2] ?? 12)
const spectra = libraryNames()
  .filter((name) => name.includes('_ASD'))
  .map((name, i) => {
    const { wavelengths, reflectance } = libraryRecord(name)
    const next = normal(i + 1)
    return { wavelengths, reflectance: reflectance.map((value) => value + 0.001 * next()) }
  })
const times: number[] = []
for (let round = 0; round < rounds; round++) {
  const begin = performance.now()
  for (const spectrum of spectra) measureScan(spectrum)
  times.push((performance.now() - begin) / spectra.length)
}
const sorted = [...times].sort((a, b) => a - b)
console.log(
  `${spectra.length} scans of 2,151 channels, ${rounds} rounds: ` +
    `least ${sorted[0].toFixed(3)} ms a scan, median ${sorted[rounds >> 1].toFixed(3)} ms`,
)
