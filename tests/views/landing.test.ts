import { describe, expect, test } from 'vitest'
import { landing } from '../../src/views/places/landing'

const METRES = [['411755.2', '6653293.9']] as const

describe('where an answer puts the first row', () => {
  // gdaltransform -s_srs EPSG:32719 -t_srs EPSG:4326 gives -69.9172 -30.2488 (GDAL, PROJ).
  test('tells longitude and latitude', () => {
    const { is, words } = landing('EPSG:32719', METRES)
    expect(is).toBe('usable')
    expect(words).toContain('30.249° S, 69.917° W')
  })

  test('refuses degrees for metres', () => {
    expect(landing('EPSG:4326', METRES).is).toBe('wrong')
  })

  test('refuses what is no code, and says what is one', () => {
    expect(landing('zone 19', METRES)).toMatchObject({ is: 'wrong' })
    expect(landing('zone 19', METRES).words).toContain('EPSG:32719')
  })

  test('takes a decimal comma', () => {
    expect(landing('EPSG:32719', [['411755,2', '6653293,9']]).words).toContain('69.917° W')
  })

  test('waits while nothing is typed', () => {
    expect(landing('', METRES).is).toBe('none')
  })
})
