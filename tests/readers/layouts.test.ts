/** Each layout reads to the right numbers. The files are made here; the numbers are invented. */
import { describe, expect, test } from 'vitest'
import type { ReadResult } from '../../src/readers/input'
import { readFile } from '../../src/readers/read-file'
import { fileOf, readTextOf, reflectanceAt, twoColumns, WAVELENGTHS } from './spectra'

function expectScans(result: ReadResult, kinds: readonly number[] = [0], tolerance = 1e-3): void {
  expect(result.problems).toEqual([])
  expect(result.kind).toBe('scans')
  expect(result.scans).toHaveLength(kinds.length)
  result.scans.forEach((scan, index) => {
    expect(scan.wavelengths).toHaveLength(WAVELENGTHS.length)
    WAVELENGTHS.forEach((nm, channel) => {
      expect(Math.abs(scan.wavelengths[channel] - nm)).toBeLessThan(tolerance)
      expect(scan.reflectance[channel]).toBeCloseTo(reflectanceAt(nm, kinds[index]), 6)
    })
  })
}

describe('two columns', () => {
  const separators = { tab: '\t', comma: ',', semicolon: ';', blank: ' ', blanks: '   ' }
  for (const [name, separator] of Object.entries(separators))
    for (const newline of ['\n', '\r\n', '\r'])
      test(`${name}, ${JSON.stringify(newline)}`, () => {
        expectScans(readTextOf(twoColumns({ separator, newline })))
      })

  for (const separator of ['\t', ';', ' '])
    test(`decimal commas between ${JSON.stringify(separator)}`, () => {
      const result = readTextOf(
        twoColumns({ separator, decimal: ',', wavelength: (nm) => nm + 0.5 }),
      )
      expect(result.layout?.decimal).toBe(',')
      expect(result.scans[0].wavelengths[0]).toBe(350.5)
      expect(result.scans[0].reflectance[0]).toBe(Math.fround(reflectanceAt(350)))
    })

  test('units are told by size', () => {
    const micro = twoColumns({ wavelength: (nm) => nm / 1000, reflectance: (r) => r * 100 })
    const result = readTextOf(micro)
    expectScans(result)
    expect(result.layout).toMatchObject({ wavelengthUnit: 'µm', reflectanceUnit: 'percent' })
    expectScans(readTextOf(twoColumns({ reflectance: (r) => r * 10000 })))
  })

  test('wavenumbers that fall are wavelengths that rise', () => {
    const heading = 'Wavenumber (cm-1)\tReflectance'
    const text = twoColumns({ heading, wavelength: (nm) => Number((1e7 / nm).toFixed(4)) })
    expectScans(readTextOf(text))
  })

  test('falling wavelengths come reversed', () => {
    const rows = twoColumns().trim().split('\n')
    expectScans(readTextOf(rows.reverse().join('\n')))
  })

  test('header lines stay as metadata, and name the scan', () => {
    const heading = 'Name: A12-1\nOperator = J. Doe\nComment\twet\nWavelength (nm)\tReflectance (%)'
    const result = readTextOf(twoColumns({ heading, reflectance: (r) => r * 100 }))
    expectScans(result)
    expect(result.scans[0].name).toBe('A12-1')
    const metadata = { Name: 'A12-1', Operator: 'J. Doe', Comment: 'wet' }
    expect(result.scans[0].metadata).toEqual(metadata)
  })

  test('units set by hand hold', () => {
    const result = readTextOf(twoColumns(), { reflectanceUnit: 'percent' })
    expect(result.scans[0].reflectance[0]).toBe(Math.fround(reflectanceAt(350) / 100))
  })
})

describe('many scans', () => {
  const header = ['Wavelength', 'P1', 'P2', 'P3']
  const rows = WAVELENGTHS.map((nm) => [nm, 0, 1, 2].map((v, k) => (k ? reflectanceAt(nm, v) : v)))

  for (const separator of [',', ';', '\t', ' '])
    test(`in columns between ${JSON.stringify(separator)}`, () => {
      const text = [header, ...rows].map((row) => row.join(separator)).join('\n')
      const result = readTextOf(text)
      expectScans(result, [0, 1, 2])
      expect(result.scans.map((scan) => scan.name)).toEqual(['P1', 'P2', 'P3'])
      expect(result.scans[1].wavelengths).toBe(result.scans[0].wavelengths)
    })

  test('rows above the heading with a cell a scan are its metadata', () => {
    const above = [['East', '10', '20', '30']]
    const result = readTextOf([...above, header, ...rows].map((row) => row.join(',')).join('\n'))
    expect(result.scans.map((scan) => scan.metadata.East)).toEqual(['10', '20', '30'])
  })

  test('rows that cannot be read are told of one by one up to a number', () => {
    const heading = `name,${WAVELENGTHS.join(',')}`
    const good = `A1,${WAVELENGTHS.map(reflectanceAt).join(',')}`
    const { scans, problems } = readTextOf(`${heading}\n${good}\n${'x\n'.repeat(3000)}`)
    expect(scans).toHaveLength(1)
    expect(problems).toHaveLength(501)
    expect(problems[500].problem).toBe('2500 more rows that cannot be read')
    expect(problems[500].line).toBe(503)
  })

  test('a row a scan, with metadata beside', () => {
    const wide = ['DH1', 'DH2'].map((hole, kind) =>
      [hole, '10.5', '11', ...WAVELENGTHS.map((nm) => reflectanceAt(nm, kind))].join(','),
    )
    const heading = ['hole', 'from', 'to', ...WAVELENGTHS].join(',')
    const result = readTextOf([heading, ...wide].join('\n'))
    expectScans(result, [0, 1])
    expect(result.scans[0].metadata).toEqual({ hole: 'DH1', from: '10.5', to: '11' })
    expect(result.scans[0].name).toBe('DH1 10.5')
  })

  test('panel and spot give reflectance', () => {
    const lines = WAVELENGTHS.map((nm, i) => `${i + 1}\t${nm}\t2000\t${2000 * reflectanceAt(nm)}`)
    const heading = 'Channel\tWavelength\tRadiance (reference)\tRadiance (target)'
    const result = readTextOf(`Instrument: none\n${heading}\n${lines.join('\n')}`)
    expectScans(result)
    expect(result.layout?.name).toBe('panel and spot')
  })
})

describe('other kinds', () => {
  test('a sample table', () => {
    const text = 'Sample;East;North;Rock\nA1;350000,5;7000000;granite\nA2;350010,5;7000000;"a; b"\n'
    const { kind, tables, problems } = readTextOf(text)
    expect(kind).toBe('table')
    expect(problems).toEqual([])
    expect(tables[0].header).toEqual(['Sample', 'East', 'North', 'Rock'])
    expect(tables[0].rows[1]).toEqual(['A2', '350010,5', '7000000', 'a; b'])
    expect(tables[0].lines).toEqual([2, 3])
  })

  test('a first heading left empty before a tab names its column all the same', () => {
    const table = readTextOf(
      '\tSample\tEast\tNorth\n0\tA1\t350000\t7000000\n1\tA2\t350010\t7000000\n',
    )
    expect(table.tables[0].header).toEqual(['column 1', 'Sample', 'East', 'North'])
    expect(table.tables[0].rows).toHaveLength(2)
    const lines = WAVELENGTHS.map((nm) => `${nm}\t${reflectanceAt(nm)}\t${reflectanceAt(nm)}`)
    const { scans } = readTextOf(`\tA1\tA2\n${lines.join('\n')}\n`)
    expect(scans.map(({ name }) => name)).toEqual(['A1', 'A2'])
  })

  test('numbers under words of places are a table', () => {
    const { kind, tables } = readTextOf(
      'x,y,zinc\n181072,333611,1022\n181025,333558,1141\n1,2,<5\n',
    )
    expect(kind).toBe('table')
    expect(tables[0].rows).toHaveLength(3)
  })

  test('so are assays of samples that are called by the letters of numbers', () => {
    for (const name of ['A', 'E', 'N', 'NA', 'S']) {
      const rows = Array.from({ length: 4 }, (_, i) => `${name}${i + 1},${12 + i}`)
      const { kind, tables, problems } = readTextOf(['Sample,Cu', ...rows, ''].join('\n'))
      expect(problems).toEqual([])
      expect(kind).toBe('table')
      expect(tables[0]).toMatchObject({ header: ['Sample', 'Cu'], commaSeparated: true })
      expect(tables[0].rows).toHaveLength(4)
    }
  })

  test('what others read is told by its bytes', () => {
    const kindOf = (bytes: Uint8Array | string): string | undefined => readFile(fileOf(bytes)).kind
    expect(kindOf(Uint8Array.from([0x49, 0x49, 42, 0, 8, 0]))).toBe('raster')
    expect(kindOf(Uint8Array.from([0xff, 0xd8, 0xff, 0xe0]))).toBe('photo')
    expect(kindOf('{"type":"FeatureCollection","features":[]}')).toBe('geojson')
  })
})

describe('values that are no reflectance are refused by the name that the file gives them', () => {
  const problemOf = (text: string, overrides = {}): string =>
    readTextOf(text, overrides)
      .problems.map(({ problem }) => problem)
      .join()

  for (const heading of [
    'Absorbance',
    'log(1/R)',
    '-log10(R)',
    'Transmittance (%)',
    'Radiance (W/m^2/sr/nm)',
    'Reflected radiance',
    'Emissivity',
    'DN',
    'Raw counts',
  ])
    test(`the heading ${heading}`, () => {
      const text = twoColumns({ heading: `Wavelength\t${heading}` })
      expect(problemOf(text)).toBe(`values headed “${heading}”, which are no reflectance`)
    })

  test('units in the header', () => {
    const heading = 'Y Units: Transmittance (percentage)\nWavelength\tSX-1'
    expect(problemOf(twoColumns({ heading }))).toContain('in “Transmittance (percentage)”')
    const wide = [
      'Y Units: Absorbance',
      `Sample,${WAVELENGTHS.join()}`,
      `A,${WAVELENGTHS.map(() => 0.4).join()}`,
    ]
    expect(problemOf(wide.join('\n'))).toContain('in “Absorbance”')
  })

  test('not where reflectance stands beside them, nor where a person says a unit', () => {
    const rows = WAVELENGTHS.map((nm) => [nm, 900, reflectanceAt(nm)].join())
    const text = ['Wavelength,Radiance,A1', ...rows].join('\n')
    expectScans(readTextOf(text))
    const heading = 'Wavelength\tDN'
    expectScans(readTextOf(twoColumns({ heading }), { reflectanceUnit: 'fraction' }))
  })

  test('nor for samples that are called so', () => {
    expectScans(readTextOf(twoColumns({ heading: 'Wavelength\tCounts 12' })))
  })
})

describe('above columns of many scans', () => {
  const rows = WAVELENGTHS.map((nm) => [nm, reflectanceAt(nm), reflectanceAt(nm, 1)].join())

  test('the row that is headed as names gives the names, wherever it stands', () => {
    const above = ['Sample,A1,A2', 'Easting,345000,345100', 'Date,2024-01-01,2024-01-01']
    const result = readTextOf([...above, ...rows].join('\n'))
    expectScans(result, [0, 1])
    expect(result.scans.map(({ name }) => name)).toEqual(['A1', 'A2'])
    expect(result.scans[1].metadata).toMatchObject({ Easting: '345100', Date: '2024-01-01' })
  })
})

test('a text may end as old programs ended it', () => {
  expectScans(readTextOf(`${twoColumns()}\u001a`))
})

test('what C programs on Windows write for no number is a gap', () => {
  const lines = twoColumns().trimEnd().split('\n')
  lines[lines.length - 1] = `${WAVELENGTHS.at(-1)}\t-1.#IND`
  const result = readTextOf(lines.join('\n'))
  expect(result.problems).toEqual([])
  expect(result.scans[0].reflectance.at(-1)).toBeNaN()
})

test('a file whose axis is no numbers is not known by NaN', () => {
  const rows = WAVELENGTHS.map((nm) => `${nm}","0,4`)
  expect(readTextOf(rows.join('\n')).look?.like).toBe(
    `scans in columns; comma; ${WAVELENGTHS.length} rows`,
  )
})

test('samples that are called by numbers have wide tables too', () => {
  const rising = WAVELENGTHS.map((_, i) => (0.2 + i / 100).toFixed(2))
  for (const names of [
    ['Sample', '101', '102'],
    ['Probe Nr', '7', '8'],
    ['nm', '1', '2'],
  ]) {
    const rows = [names[1], names[2]].map((name) => [name, ...rising].join())
    const { scans, problems } = readTextOf(
      [[names[0], ...WAVELENGTHS].join(), ...rows, ''].join('\n'),
    )
    expect(problems).toEqual([])
    expect(scans).toHaveLength(2)
    expect(Array.from(scans[0].wavelengths)).toEqual(WAVELENGTHS)
  }
})

test('words below the last row end a table, and numbers there do not', () => {
  expectScans(readTextOf(`${twoColumns()}>>>>> End of data <<<<<\n\n`))
  expect(readTextOf(`${twoColumns()}end 44\n`).problems[0].problem).toContain('“end 44”')
})
