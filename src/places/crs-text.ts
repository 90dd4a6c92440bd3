/** A coordinate system out of the words that people put in a table for it. */
import { codeOfName } from './crs'

/**
 * The code that a cell or a rule names: `EPSG:32719`, `32719`, `urn:ogc:def:crs:EPSG::32719`,
 * `WGS 84 / UTM zone 19S`, `WGS84 19S`, `WGS84`, `MGA94 zone 55`, `local:m`, or a name in the
 * register once it is loaded. After a zone's number N and S are the hemisphere, as in the register's
 * names; another letter is the latitude band. A zone without a datum names nothing.
 *
 * @returns null where no one system is named
 */
export function crsFromText(text: string): string | null {
  const plain = text.normalize('NFKC').trim()
  if (plain === '' || plain.length > 200) return null
  const local = /^local:(m|km|ft)$/i.exec(plain)
  if (local) return `local:${local[1].toLowerCase()}`
  const code = /EPSG\W{0,3}(\d{4,5})(?!\d)/i.exec(plain) ?? /^(\d{4,5})$/.exec(plain)
  if (code) return `EPSG:${code[1]}`
  if (/wgs[\s_-]*(19)?84/i.test(plain)) return wgs84FromText(plain)
  const grid = plain
    .replace(/mga[\s_-]*(19)?94/i, 'GDA94 MGA')
    .replace(/mga[\s_-]*2020/i, 'GDA2020 MGA')
  return codeOfName(grid)
}

function wgs84FromText(text: string): string | null {
  const rest = text.replace(/wgs[\s_-]*(19)?84/i, ' ')
  const zone = /(?<!\d)(\d{1,2})\s*([C-HJ-NP-X])?(?:outh|orth)?(?![A-Za-z\d])/i.exec(rest)
  if (!zone) return /\d/.test(rest) ? null : 'EPSG:4326'
  const number = Number(zone[1])
  const letter = zone[2]?.toUpperCase()
  if (number < 1 || number > 60 || letter === undefined) return null
  const south = letter === 'S' || letter < 'N'
  return `EPSG:${(south ? 32700 : 32600) + number}`
}

/** The code in a heading such as `East_32719`, `X (EPSG:28355)` or `UTM_E_WGS84_19S`. */
export function crsFromHeading(heading: string): string | null {
  const code =
    /EPSG\W{0,3}(\d{4,5})(?!\d)/i.exec(heading) ?? /(?<![A-Za-z\d])(\d{5})(?!\d)/.exec(heading)
  if (code) return `EPSG:${code[1]}`
  if (!/wgs[\s_-]*(19)?84/i.test(heading)) return null
  const found = wgs84FromText(heading.replace(/_/g, ' '))
  return found === 'EPSG:4326' ? null : found
}
