// Drives Chromium over the pages in a folder; see check.sh.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import puppeteer from 'puppeteer-core'

const [folder, pictures] = process.argv.slice(2)
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const faults = []
const fault = text => { faults.push(text); console.log(`page: ${text}`) }

const browser = await puppeteer.launch({
  executablePath: '/usr/bin/chromium', headless: true, args: ['--no-sandbox', '--disable-gpu'],
})
let rules = 0
for (const name of ['critique', 'compare']) {
  const address = pathToFileURL(join(folder, `${name}.html`)).href
  for (const [screen, width, height] of [['screen', 1200, 900], ['phone', 360, 740]]) {
    for (const scheme of ['light', 'dark']) {
      const page = await browser.newPage()
      page.on('request', r => { if (r.url() !== address) fault(`${name} asks for ${r.url()}`) })
      page.on('console', m => { if (m.type() === 'error') fault(`${name}: ${m.text()}`) })
      await page.setViewport({ width, height })
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }])
      await page.goto(address)
      if (pictures) await page.screenshot({ path: join(pictures, `${name}-${screen}-${scheme}.png`), fullPage: true })
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
      if (wide > 0) fault(`${name} on a ${screen} is ${wide} pixels too wide`)
      // A mark hangs under its syllable, and clear of the line below it.
      const marks = await page.evaluate(() => [...document.querySelectorAll('.syllable')].map(s => {
        const style = getComputedStyle(s, '::after')
        return {
          text: s.textContent, mark: style.content, under: parseFloat(style.top) >= s.getBoundingClientRect().height * 0.8,
          clear: parseFloat(style.top) + parseFloat(style.height) <= parseFloat(getComputedStyle(s.closest('.verse')).lineHeight),
        }
      }))
      if (marks.length === 0) fault(`${name} sets no syllables`)
      for (const m of marks.filter(m => !/[x\/]/.test(m.mark) || !m.under || !m.clear).slice(0, 5)) fault(`${name} on a ${screen}: the beat does not stand under ${m.text}`)
      await page.evaluate(axe)
      const result = await page.evaluate(() => window.axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      }))
      rules = result.passes.length
      for (const v of result.violations) {
        fault(`${name}, ${screen}, ${scheme}: ${v.id}: ${v.help}\n  ${v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + ' — ' + n.failureSummary.replace(/\s+/g, ' ')).join('\n  ')}`)
      }
      await page.close()
    }
  }
  const page = await browser.newPage()
  await page.goto(address)
  const pages = []
  for (const format of ['A4', 'Letter']) {
    // Only the letter, for the promise of two pages; then all of it.
    const hidden = await page.addStyleTag({ content: '.set, .strips, .spreads { display: none }' }).catch(() => null)
    const count = async path => {
      const pdf = Buffer.from(await page.pdf({ format, preferCSSPageSize: false, path })).toString('latin1')
      return (pdf.match(/\/Type\s*\/Page[^s]/g) ?? []).length
    }
    const letter = await count()
    await hidden?.evaluate(e => e.remove())
    const all = await count(pictures ? join(pictures, `${name}-${format}.pdf`) : undefined)
    pages.push(`${all} on ${format}`)
    if (name === 'critique') pages.push(`of them the letter ${letter}`)
    if (all === 0) fault(`${name} prints nothing on ${format}`)
    if (name === 'critique' && letter > 2) fault(`the letter takes ${letter} pages on ${format}`)
    if (name === 'critique' && all <= letter) fault(`the manuscript is missing on ${format}`)
  }
  await page.close()
  console.log(`page: ${name}: ${rules} rules hold on the phone in the dark; printed pages: ${pages.join(', ')}`)
}
await browser.close()
process.exit(faults.length > 0 ? 1 : 0)
