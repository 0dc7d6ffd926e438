import type { Finding } from '@forcemeat/craft/finding'
import { overall } from '@forcemeat/craft/finding'
import { expect, it } from 'vitest'
import { overallWords } from '../../src/ui/overall-words.ts'

const finding = (verdict: Finding['verdict'], rest: Partial<Finding> = {}): Finding => ({
  rule: 'r',
  title: 't',
  jurisdiction: 'US',
  verdict,
  weight: 'limit',
  unit: '',
  because: '',
  source: { document: 'd', section: 's', edition: 'e' },
  inForce: {},
  ...rest,
})
const said = (...findings: Finding[]): string => {
  const { label, more } = overallWords(overall(findings), findings)
  return label + more
}

it('never counts advice among the limits', () => {
  expect(said(finding('pass'), finding('fail', { weight: 'advice' }))).toBe('Meets every limit; 1 advice not met.')
  expect(said(finding('pass'), finding('cannot-tell', { weight: 'advice' }))).toBe(
    'Meets every limit; 1 advice cannot be told.',
  )
})

it('counts an alternative that is not met only where none of its group is', () => {
  const [met, unmet] = [finding('pass', { anyOf: 'chill' }), finding('fail', { anyOf: 'chill' })]
  expect(said(met, unmet)).toBe('Meets every limit.')
  expect(said(unmet, unmet, finding('pass'))).toBe('Fails 1 limit.')
})

it('says how many limits fail and how many cannot be told', () => {
  expect(said(finding('fail'), finding('fail'), finding('cannot-tell'))).toBe('Fails 2 limits; 1 limit cannot be told.')
  expect(said(finding('cannot-tell'), finding('pass'))).toBe('Cannot tell: 1 limit.')
  expect(said()).toBe('Cannot tell.')
})
