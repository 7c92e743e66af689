/** The look of the cut cards: black on white, rules and weights instead of grey tones, one board a page of A4 or Letter. */
export const cardStyle = `
@page { size: auto; margin: 10mm 12mm; }
:root { color-scheme: only light; }
* { box-sizing: border-box; }
body { margin: 0; color: #000; background: #fff; font: 9pt/1.3 Helvetica, Arial, "Liberation Sans", sans-serif; }
.screen { max-width: 186mm; margin: 6mm auto; padding: 2mm 4mm; border: 1px solid #000; }
.card { max-width: 186mm; margin: 0 auto; break-after: page; }
.card:last-child { break-after: auto; }
header { display: flex; justify-content: space-between; align-items: flex-end; gap: 6mm; border-bottom: 2pt solid #000; padding-bottom: 1.5mm; }
h1 { font-size: 18pt; line-height: 1; margin: 0; overflow-wrap: anywhere; }
header p { margin: 0; text-align: right; }
header .job { font-size: 12pt; font-weight: 700; overflow-wrap: anywhere; }
.facts { display: flex; flex-wrap: wrap; gap: 0.5mm 7mm; margin: 1.5mm 0 2mm; padding: 0; }
.facts div { display: flex; gap: 1.5mm; }
.facts dt { font-weight: 400; }
.facts dd { margin: 0; font-weight: 700; }
.warn { border: 1.2pt solid #000; border-left-width: 5pt; margin: 0 0 2mm; padding: 0.5mm 2.5mm; list-style: none; }
.warn li { margin: 0.4mm 0; }
.one { white-space: nowrap; }
.shared { margin: 0 0 2mm; }
.drawing svg { display: block; width: 100%; height: auto; max-height: 108mm; }
h2 { font-size: 10pt; margin: 2.8mm 0 0.6mm; break-after: avoid; }
table { width: 100%; border-collapse: collapse; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th { text-align: left; font-weight: 400; font-size: 8.5pt; border-bottom: 0.8pt solid #000; padding: 0.4mm 1.5mm 0.4mm 0; vertical-align: bottom; }
td { border-bottom: 0.4pt solid #000; padding: 0.75mm 1.5mm 0.75mm 0; vertical-align: top; overflow-wrap: anywhere; }
td.no, td.set { font-weight: 700; white-space: nowrap; }
td.set { font-size: 10.5pt; line-height: 1.1; }
td.again { font-weight: 400; }
td.cut { white-space: nowrap; }
.cuts th:last-child, .cuts td:last-child { width: 40%; }
td.fill { min-width: 18mm; }
.box { display: inline-block; width: 3.6mm; height: 3.6mm; border: 0.9pt solid #000; vertical-align: -0.5mm; }
.line { display: inline-block; width: 100%; min-width: 15mm; height: 1.1em; border-bottom: 0.6pt solid #000; }
.cautions { break-inside: avoid; border-top: 0.8pt solid #000; margin-top: 3mm; padding-top: 0.8mm; font-size: 8pt; line-height: 1.25; }
.cautions p { margin: 0.5mm 0; }
.cautions ul { margin: 0.5mm 0; padding-left: 4mm; columns: 2; column-gap: 8mm; }
.cautions li { break-inside: avoid; }
.hint { font-size: 8pt; margin: 0.4mm 0 0; }
@media print { .screen { display: none; } }
@media screen { .card { margin: 0 auto 14mm; padding: 0 4mm; } }
`;
