/** Varieties: the ready indices that speak of a group, and where a value stands among readings. */
import { describe, expect, test } from 'vitest'
import { amongLandmarks, VARIETIES, varietiesOf } from '../../src/indices/varieties'
import { GROUPS } from '../../src/minerals/groups'

function inWords(group: string, id: string, value: number): string {
  const variety = varietiesOf(group).find(({ preset }) => preset.id === id)
  if (!variety) throw new Error(`${group} has no ${id}`)
  return amongLandmarks(variety, value)
}

describe('varieties', () => {
  test('speak of groups that there are, each gated by every group of its own', () => {
    for (const { preset, groups } of VARIETIES) {
      for (const group of groups) {
        expect(GROUPS.has(group), group).toBe(true)
        expect(preset.where, preset.id).toContain(`group("${group}")`)
      }
    }
  })

  test('compare with the readings that the preset states', () => {
    for (const { preset, landmarks } of VARIETIES) {
      for (const { name, from, to } of landmarks) {
        const stated = [from, to].filter(Number.isFinite).map(String)
        for (const number of stated)
          expect(preset.reading, `${preset.id}: ${name}`).toContain(number)
      }
    }
  })

  test('put the main one of a group first', () => {
    expect(varietiesOf('white mica')[0].preset.id).toBe('white-mica-position')
    expect(varietiesOf('kaolin')[0].preset.id).toBe('kaolin-order')
    expect(varietiesOf('quartz')).toEqual([])
  })

  test('say where a value stands', () => {
    expect(inWords('white mica', 'white-mica-position', 2212)).toBe(
      'between muscovite and phengitic muscovite',
    )
    expect(inWords('white mica', 'white-mica-position', 2220)).toBe('above phengitic muscovite')
    expect(inWords('alunite', 'alunite-position', 1470)).toBe('below potassic alunite')
    expect(inWords('kaolin', 'kaolin-order', 0.95)).toBe('where halloysite reads')
    expect(inWords('goethite', 'ferric-position', 895)).toBe(
      'where fine hematite and goethite and jarosite read',
    )
  })
})
