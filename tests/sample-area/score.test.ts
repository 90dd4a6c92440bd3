/** The scores themselves: right on a perfect answer, and wrong on a wrong one. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { micaPosition, zoneAt } from '../../sample-area/make/geology'
import { meanMica } from '../../sample-area/make/mixture'
import { frameOver, sampleFrame, writeRaster } from '../../sample-area/make/rasters'
import { scoreChecks, scoreMica, scoreMinerals, scorePlaces } from './score'
import { SAMPLE_AREA, truthOfScans, type Row } from './truth'

const folder = mkdtempSync(join(tmpdir(), 'sample-area-score-'))
afterAll(() => rmSync(folder, { recursive: true }))

/** A `scans.csv` that says of each scan what `answer` says. */
function answered(answer: (truth: Row) => readonly [mineral: string, group: string]): string {
  const rows = truthOfScans().map((truth) => {
    const check = truth.sound === 'yes' ? 'sound' : 'set aside'
    const place = [truth.easting, truth.northing]
    return [truth.scan, `sample-area/scans/${truth.file}`, check, ...answer(truth), ...place].join(
      ',',
    )
  })
  return ['scan,file,check,mineral,group,easting,northing', ...rows].join('\r\n')
}

test('the truth itself scores full', () => {
  const csv = answered(({ main, group }) => [main, group])
  expect(scoreMinerals(csv)).toMatchObject({ accuracy: 1, groupAccuracy: 1, wrong: [] })
  expect(scoreMinerals(csv).scans).toBeGreaterThan(360)
  expect(scorePlaces(csv)).toMatchObject({ unplaced: [], largest: 0 })
  const { faults, sound } = scoreChecks(csv)
  expect(sound.doubted).toBe(0)
  expect(faults['panel']).toEqual({ scans: 1, doubted: 1 })
  expect(faults['detector step'].doubted).toBe(faults['detector step'].scans)
})

test('kaolinite everywhere scores little, and says where it went wrong', () => {
  const score = scoreMinerals(answered(() => ['kaolinite', 'kaolin']))
  expect(score.accuracy).toBeLessThan(0.2)
  expect(score.wrong[0][0]).toBe('muscovite → kaolinite')
})

test('a surface two nm too long has a bias of 2 and an RMSE of 2, and drawing on the core is seen', async () => {
  const frame = frameOver(100, 20)
  const values = sampleFrame(frame, (point) => {
    if (zoneAt(point) === 'alunite') return 2200
    return meanMica(point) >= 0.05 ? micaPosition(point) + 2 : -9999
  })
  const core = sampleFrame(frame, (point) => (zoneAt(point) === 'alunite' ? 1 : 0))
  const file = join(folder, 'mica.tif')
  writeFileSync(file, writeRaster(frame, values, 'float', '-9999'))
  const score = await scoreMica(file)
  expect(score.bias).toBeCloseTo(2, 3)
  expect(score.rmse).toBeCloseTo(2, 3)
  expect(score.overCore).toBe(core.reduce((sum, one) => sum + one, 0))
  expect(score.overNone).toBe(score.overCore)
})

test('the true surface scores nothing wrong', async () => {
  const score = await scoreMica(join(SAMPLE_AREA, 'truth/white-mica.tif'))
  expect(score).toMatchObject({ rmse: 0, bias: 0, overCore: 0, overNone: 0 })
  expect(score.covered).toBeCloseTo(1, 6)
  expect(readFileSync(join(SAMPLE_AREA, 'truth/zones.csv'), 'utf8')).toContain('alunite')
})
