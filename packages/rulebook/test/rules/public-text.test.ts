import { describe, expect, it } from 'vitest'
import { allRules } from '../../src/catalogue.ts'
import { publicText } from '../../src/public-text.ts'

const of = (document: string, section = '', jurisdiction?: string) => publicText({ document, section }, jurisdiction)

describe('where the text of a source stands in public', () => {
  it('is the address it gives itself', () => {
    expect(publicText({ document: '9 CFR 318.17', section: '(a)', url: 'https://example.org/x' })).toBe(
      'https://example.org/x',
    )
  })

  it('follows from the name of the law', () => {
    expect(of('9 CFR 318.17(a)(2), 318.23(c)')).toBe('https://www.ecfr.gov/current/title-9/section-318.17')
    expect(of('Regulation (EU) No 1169/2011')).toBe('https://eur-lex.europa.eu/eli/reg/2011/1169/oj')
    expect(of('Regulation (EU) 1169/2011', 'Annex X, kept in Great Britain')).toBe(
      'https://www.legislation.gov.uk/eur/2011/1169',
    )
    expect(of('Regulation (EU) No 1169/2011', 'Annex VI', 'GB')).toBe('https://www.legislation.gov.uk/eur/2011/1169')
    expect(of('Regulation (EU) 2015/1375, Annex II')).toBe('https://eur-lex.europa.eu/eli/reg_impl/2015/1375/oj')
    expect(of('Directive 76/211/EEC, Annex I')).toBe('https://eur-lex.europa.eu/eli/dir/1976/211/oj')
    expect(of('Safe Food for Canadians Regulations, SOR/2018-108')).toContain('SOR-2018-108')
  })

  it('is none for what has no public text, or stands no more', () => {
    expect(of('Common practice of the trade, no source')).toBe(undefined)
    expect(of('9 CFR 318.10 (former) and FSIS trichinae guideline')).toBe(undefined)
    expect(of('Leistner and Rödel, classes of meat products')).toBe(undefined)
  })

  it('is there for every rule of a law, and every address is a whole one', () => {
    const sources = allRules().flatMap((r) => (r.values ?? []).map((v) => ({ r, s: v.source })))
    for (const { r, s } of sources) {
      const url = publicText(s, r.jurisdiction)
      if (/^(9|21) CFR|Regulation \(E|Directive \d|Food Standards Code/.test(s.document) && !/former/.test(s.document))
        expect(url, `${r.id}: ${s.document}`).toBeDefined()
      if (url !== undefined) expect(() => new URL(url)).not.toThrow()
    }
  })
})
