/** A reason's measure and limit, with their unit. */
import { expect, test } from 'vitest'
import type { Reason } from '../../src/check/verdict'
import { measureWords } from '../../src/views/check/reason-words'

const of = (reason: Partial<Reason>) =>
  measureWords({ reason: '', measure: 0, limit: 0, unit: '', words: '', ...reason })

test('minutes, parts of 1 in percent, a ratio to noise as it is', () => {
  expect(of({ reason: 'stale white reference', measure: 16.4, limit: 15, unit: 'min' })).toBe(
    'measured 16\u202fmin, limit 15\u202fmin',
  )
  expect(of({ reason: 'detector step', measure: -0.0497, limit: 0.015 })).toBe(
    'measured −5.0\u202f%, limit 1.5\u202f%',
  )
  expect(of({ reason: 'noise', measure: 12.3, limit: 20 })).toBe('measured 12, limit 20')
  expect(of({ reason: 'duplicate', measure: 0, limit: 0.2, unit: 'noise' })).toBe(
    'measured 0\u202ftimes the noise, limit 0.2\u202ftimes the noise',
  )
})

test('a scan of the standard or the check rock departs from nothing', () => {
  expect(of({ reason: 'check rock', measure: 0, limit: 0.1 })).toBe('')
})
