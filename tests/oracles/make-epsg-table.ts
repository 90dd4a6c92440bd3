/**
 * Strips the dev dependency epsg-index (EPSG's register as proj4 text, 40 MB) to
 * `src/places/epsg.json`: code → [name, proj4 text], for projected and geographic
 * systems that proj4 can compute. Run from the project's root:
 *
 *   npx tsx tests/oracles/make-epsg-table.ts
 *
 * WGS 84 / UTM (326zz, 327zz) is left out: `crs.ts` makes it by rule. A datum shift that the
 * register gives as a grid file, which is not shipped, is replaced by the three- or
 * seven-parameter shift of EPSG's register named beside it (read from PROJ 9.1's proj.db,
 * coordinate-frame rotations with their signs turned to position-vector); where there is none the
 * shift is left out and `openCrs` says that it is missing.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import proj4 from 'proj4'

interface Entry {
  readonly kind: string
  readonly name: string
  readonly proj4: string | null
}

/** Datum by the start of the system's name → shift, with its EPSG operation and stated accuracy. */
const SHIFTS: readonly (readonly [name: string, towgs84: string])[] = [
  ['OSGB36', '446.448,-125.157,542.06,0.15,0.247,0.842,-20.489'], // EPSG:1314, 2 m
  ['DHDN', '598.1,73.7,418.2,0.202,0.045,-2.455,6.7'], // EPSG:1777, 3 m
  ['NZGD49', '59.47,-5.04,187.44,0.47,-0.1,1.024,-4.5993'], // EPSG:1564, 4 m
  ['AGD84', '-117.763,-51.51,139.061,0.292,0.443,0.277,-0.191'], // EPSG:1669, 3 m
  ['Corrego Alegre 1970-72', '-206,172,-6'], // EPSG:1132, 8 m
  ['NAD27 /', '-8,160,176'], // EPSG:1173, 10 m, conterminous USA
  ['NAD27', '-8,160,176'],
]

/** Ellipsoids that proj4 2.22 does not know by PROJ's name and would silently take for WGS 84. */
const AXES: readonly (readonly [name: string, axes: string])[] = [
  ['+ellps=WGS72', '+a=6378135 +rf=298.26'], // EPSG:7043
  ['+ellps=GSK2011', '+a=6378136.5 +rf=298.2564151'], // EPSG:1025
]

/** EPSG's own codes end at 32767; higher ones in the index come from elsewhere. */
const LAST_CODE = 32767

function stripped(entry: Entry): string | null {
  if (entry.proj4 === null || !/^CRS-(PROJ|GEOG)CRS$/.test(entry.kind)) return null
  // proj4 has no hyperbolic form of Cassini's projection (EPSG method 9833) and would take the plain one.
  if (/\+hyperbolic/.test(entry.proj4)) return null
  let text = entry.proj4
    .replace(/ \+(no_defs|type=crs|wktext)\b/g, '')
    .replace(/\.0+(?=[ ,]|$)/g, '')
  text = text
    .replace('+towgs84=0,0,0,0,0,0,0', '+towgs84=0,0,0')
    .replace(/(\+towgs84=[^ ]*?),0,0,0,0(?= |$)/, '$1')
  if (/nadgrids=@null/.test(text)) return text
  if (/nadgrids=/.test(text)) {
    const shift = SHIFTS.find(([name]) => entry.name === name || entry.name.startsWith(`${name} `))
    text = text.replace(/\+nadgrids=("[^"]*"|\S+)/, shift ? `+towgs84=${shift[1]}` : '')
  }
  if (/\+datum=NAD27/.test(text))
    text = text.replace('+datum=NAD27', '+ellps=clrk66 +towgs84=-8,160,176')
  for (const [name, axes] of AXES) text = text.replace(name, axes)
  text = text.replace(/\s+/g, ' ').trim()
  try {
    proj4(text)
    return text
  } catch {
    return null
  }
}

const index: Record<string, Entry> = JSON.parse(
  readFileSync(createRequire(import.meta.url).resolve('epsg-index/all.json'), 'utf8'),
)
const lines: string[] = []
for (const code of Object.keys(index)
  .map(Number)
  .sort((a, b) => a - b)) {
  const zone = code % 100
  if (code > LAST_CODE || (/^32[67]/.test(String(code)) && zone >= 1 && zone <= 60)) continue
  const text = stripped(index[code])
  if (text !== null)
    lines.push(`${JSON.stringify(String(code))}:${JSON.stringify([index[code].name, text])}`)
}
writeFileSync('src/places/epsg.json', `{\n${lines.join(',\n')}\n}\n`)
process.stdout.write(`${lines.length} systems\n`)
