/** Hand-made files over all layouts and encodings, with the numbers that each must give. Invented. */
import { zipSync } from 'fflate'
import { ENCODINGS } from './encodings'
import { jcampText, ordinateForms } from './jcamp-writer'
import { bytesOf, reflectanceAt, twoColumns, WAVELENGTHS, type TwoColumns } from './spectra'

/** How an independent plain parse would read the file's rows. */
export interface PlainRows {
  readonly delimiter: string | RegExp
  readonly decimal: '.' | ','
  readonly wavelength: number
  /** The columns of scans; for panel and spot, the two to divide. */
  readonly columns: readonly number[]
  readonly ratio?: boolean
}

export interface CorpusFile {
  readonly name: string
  readonly bytes: Uint8Array
  /** The kind of `reflectanceAt` that each scan is of. */
  readonly kinds: readonly number[]
  /** null where rows are not wavelengths. */
  readonly rows: PlainRows | null
  /** For a row a scan: how its cells stand. */
  readonly wide?: Pick<PlainRows, 'delimiter' | 'decimal'>
}

const HEADINGS = {
  none: undefined,
  plain: 'Wavelength\tReflectance',
  pairs: 'Name: déjà vu\nTemperature = 21 °C\nComment\tdry\nWavelength (nm)\tReflectance',
  library: 'Name: rock\nX Units: Wavelength (micrometers)\nNumber of X Values: 44\n',
}

function plain(name: string, options: TwoColumns, delimiter: string | RegExp): CorpusFile {
  const rows = { delimiter, decimal: options.decimal ?? '.', wavelength: 0, columns: [1] } as const
  return { name, bytes: bytesOf(twoColumns(options)), kinds: [0], rows }
}

function twoColumnFiles(): CorpusFile[] {
  const files: CorpusFile[] = []
  for (const [separator, delimiter] of [
    ['\t', '\t'],
    [',', ','],
    [';', ';'],
    ['  ', /[ \t]+/],
  ] as const)
    for (const newline of ['\n', '\r\n', '\r']) {
      const name = `two columns ${JSON.stringify(separator + newline)}`
      files.push(plain(name, { separator, newline }, delimiter))
    }
  for (const [separator, delimiter] of [
    ['\t', '\t'],
    [';', ';'],
    [' ', /[ \t]+/],
  ] as const)
    files.push(plain(`decimal commas ${separator}`, { separator, decimal: ',' }, delimiter))
  for (const [name, heading] of Object.entries(HEADINGS))
    files.push(plain(`heading ${name}`, { heading }, '\t'))
  const micro = { wavelength: (nm: number) => nm / 1000 }
  files.push(plain('micrometres', micro, '\t'))
  files.push(plain('percent', { reflectance: (r) => 100 * r }, '\t'))
  files.push(plain('ten-thousandths', { reflectance: (r) => 10000 * r }, '\t'))
  const library = { heading: `${HEADINGS.library}Y Units: Reflectance (percentage)\n` }
  files.push(plain('name and value', { ...library, ...micro, reflectance: (r) => 100 * r }, '\t'))
  const inverse = { heading: 'cm-1,R', separator: ',', wavelength: (nm: number) => 1e7 / nm }
  files.push(plain('wavenumbers', inverse, ','))
  const quotes = twoColumns({ separator: '","' }).trim().split('\n')
  const quoted = quotes.map((row) => `"${row}"`).join('\n')
  files.push({ ...files[3], name: 'quoted', bytes: bytesOf(quoted), rows: null })
  const commas = twoColumns({ separator: '","', decimal: ',' }).trim().split('\n')
  const quotedCommas = commas.map((row) => `"${row}"`).join('\n')
  files.push({
    ...files[3],
    name: 'quoted, decimal commas',
    bytes: bytesOf(quotedCommas),
    rows: null,
  })
  const comments = `# made by nobody\n% really\n${twoColumns()}`
  files.push({ ...files[0], name: 'comments', bytes: bytesOf(comments) })
  const falling = twoColumns().trim().split('\n').reverse().join('\n')
  return [...files, { ...files[0], name: 'falling', bytes: bytesOf(falling) }]
}

function encodedFiles(): CorpusFile[] {
  const heading = 'Site: São José\nWavelength (µm)\tReflectance (%)'
  const text = twoColumns({ heading, wavelength: (nm) => nm / 1000, reflectance: (r) => 100 * r })
  const rows = { delimiter: '\t', decimal: '.', wavelength: 0, columns: [1] } as const
  return Object.entries(ENCODINGS).map(([name, encode]) => ({
    name: `in ${name}`,
    bytes: encode(text),
    kinds: [0],
    rows,
  }))
}

function manyColumnFiles(): CorpusFile[] {
  const table = (separator: string, decimal: '.' | ',', above: readonly string[]): string => {
    const rows = WAVELENGTHS.map((nm) => [nm, ...[0, 1, 2].map((kind) => reflectanceAt(nm, kind))])
    const written = rows.map((row) =>
      row.map((value) => String(value).replace('.', decimal)).join(separator),
    )
    return [...above, ['Wavelength', 'P1', 'P2', 'P3'].join(separator), ...written].join('\n')
  }
  const make = (
    name: string,
    separator: string,
    decimal: '.' | ',',
    above: readonly string[] = [],
  ) => ({
    name: `columns ${name}`,
    bytes: bytesOf(table(separator, decimal, above)),
    kinds: [0, 1, 2],
    rows: {
      delimiter: separator === ' ' ? /[ \t]+/ : separator,
      decimal,
      wavelength: 0,
      columns: [1, 2, 3],
    },
  })
  return [
    make('comma', ',', '.'),
    make('semicolon', ';', '.'),
    make('semicolon, decimal commas', ';', ','),
    make('tab', '\t', '.'),
    make('tab, decimal commas', '\t', ','),
    make('blanks', ' ', '.'),
    make('pairs above', ',', '.', ['Operator: nobody', 'unit,%', '']),
    make('metadata rows', ',', '.', ['East,1,2,3', 'North,4,5,6']),
  ]
}

function wideFiles(): CorpusFile[] {
  const make = (name: string, separator: string, decimal: '.' | ',', affix: string): CorpusFile => {
    const heading = [
      'hole',
      'from',
      'to',
      ...WAVELENGTHS.map((nm) => affix.replace('#', String(nm))),
    ]
    const rows = [0, 1, 2].map((kind) => [
      'H1',
      10 + kind,
      11 + kind,
      ...WAVELENGTHS.map((nm) => String(reflectanceAt(nm, kind)).replace('.', decimal)),
    ])
    const text = [heading, ...rows].map((row) => row.join(separator)).join('\r\n')
    return {
      name: `wide ${name}`,
      bytes: bytesOf(text),
      kinds: [0, 1, 2],
      rows: null,
      wide: { delimiter: separator, decimal },
    }
  }
  const bare = [WAVELENGTHS, WAVELENGTHS.map((nm) => reflectanceAt(nm))]
  const bareText = bare.map((row) => row.join('\t')).join('\n')
  return [
    make('comma', ',', '.', '#'),
    make('semicolon, decimal commas', ';', ',', '#'),
    make('tab', '\t', '.', '#'),
    make('nm after', ',', '.', '# nm'),
    make('R before', ',', '.', 'R#'),
    make('quoted', ',', '.', '"#"'),
    {
      name: 'wide bare',
      bytes: bytesOf(bareText),
      kinds: [0],
      rows: null,
      wide: { delimiter: '\t', decimal: '.' },
    },
  ]
}

function instrumentFiles(): CorpusFile[] {
  const make = (
    name: string,
    headings: string,
    columns: readonly number[],
    ratio: boolean,
  ): CorpusFile => {
    const rows = WAVELENGTHS.map((nm, i) =>
      [i + 1, nm, 2000 + i, (2000 + i) * reflectanceAt(nm), 100 * reflectanceAt(nm)].join('\t'),
    )
    const text = ['Instrument: invented', 'Battery = 12.1', headings, ...rows].join('\n')
    const plainRows = { delimiter: '\t', decimal: '.', wavelength: 1, columns, ratio } as const
    return { name, bytes: bytesOf(text), kinds: [0], rows: plainRows }
  }
  return [
    make(
      'reflectance by heading',
      'Chan\tWavelength\tRad (ref)\tRad (target)\tReflectance %',
      [4],
      false,
    ),
    make('ratio by heading', 'Chan\tWavelength\tRad (ref)\tRad (target)\tTgt/Ref %', [4], false),
    make('panel and spot', 'Chan\tWavelength\tPanel\tTarget\tTemperature', [2, 3], true),
  ]
}

/** Kinds that are easily taken for others: `awkward.test.ts` has more of them. */
function awkwardFiles(): CorpusFile[] {
  const kinds = Array.from({ length: 12 }, (_, kind) => kind)
  const many = (name: string, headings: readonly (string | number)[]): CorpusFile => {
    const rows = WAVELENGTHS.map((nm) => [nm, ...kinds.map((kind) => reflectanceAt(nm, kind))])
    const text = [headings, ...rows].map((row) => row.join(',')).join('\n')
    const columns = kinds.map((kind) => kind + 1)
    const plainRows = { delimiter: ',', decimal: '.', wavelength: 0, columns } as const
    return { name, bytes: bytesOf(text), kinds, rows: plainRows }
  }
  const german = { separator: ';', decimal: ',', reflectance: (r: number) => 100 * r } as const
  const heading = 'Proben-ID: A\nDatum: 06.05.2024\nWellenlänge (nm);Reflexionsgrad (%)'
  const below = `Wavelength\tReflectance\n${twoColumns()}# exported\nComment: wet, 3\n`
  const breaks = `"Wavelength\n(nm)","Rock\nA"\n${twoColumns({ separator: ',' })}`
  const padded = `Operator,Ana,,\nDate,2024-05-06,,\nWavelength,P1,P2,\n${WAVELENGTHS.map(
    (nm) => `${nm},${reflectanceAt(nm)},${reflectanceAt(nm, 1)},`,
  ).join('\n')}\n`
  const comma = { delimiter: ',', decimal: '.', wavelength: 0 } as const
  return [
    many('columns S1 to S12', ['Wavelength', ...kinds.map((kind) => `S${kind + 1}`)]),
    many('columns 101 to 112', ['Wavelength', ...kinds.map((kind) => 101 + kind)]),
    many('columns headed by depths', ['Depth', ...kinds.map((kind) => 100 + 1.5 * kind)]),
    plain('another language', { heading, ...german }, ';'),
    { ...plain('pairs below', {}, '\t'), bytes: bytesOf(below) },
    { ...plain('breaks in headings', {}, ','), bytes: bytesOf(breaks) },
    {
      name: 'filled up with empty cells',
      bytes: bytesOf(padded),
      kinds: [0, 1],
      rows: { ...comma, columns: [1, 2] },
    },
  ]
}

/** Archives, exchange files: what is in them is guarded by checks. */
function guardedFiles(): CorpusFile[] {
  const files = ordinateForms.map((form): CorpusFile => ({
    name: `JCAMP-DX ${form}`,
    bytes: bytesOf(jcampText(form)),
    kinds: [0],
    rows: null,
  }))
  const axis = `Wavelengths of a library in microns\n${WAVELENGTHS.map((nm) => nm / 1000).join('\n')}\n`
  const record = `a record\n${WAVELENGTHS.map((nm) => reflectanceAt(nm)).join('\n')}\n`
  const archive = (entries: Record<string, Uint8Array>, level: 0 | 6): Uint8Array =>
    zipSync(entries, { level, mtime: '2024-05-06T00:00:00Z' })
  const library = { 'axis.txt': bytesOf(axis), 'records/a.txt': bytesOf(record) }
  const zip = (name: string, bytes: Uint8Array): CorpusFile => ({
    name,
    bytes,
    kinds: [0],
    rows: null,
  })
  return [
    ...files,
    zip('zip, deflated', archive({ 'a/scan.txt': bytesOf(twoColumns()) }, 6)),
    zip('zip, stored', archive({ 'scan.txt': bytesOf(twoColumns()) }, 0)),
    zip('zip of a library', archive(library, 6)),
  ]
}

export const CORPUS: readonly CorpusFile[] = [
  ...twoColumnFiles(),
  ...encodedFiles(),
  ...manyColumnFiles(),
  ...wideFiles(),
  ...instrumentFiles(),
  ...awkwardFiles(),
  ...guardedFiles(),
]
