/** How the sheet looks on a screen and on paper; nothing is fetched. */
export const sheetStyle = `
:root{color-scheme:light;--ink:#111;--quiet:#555;--faint:#c8c8c8}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:var(--ink);font:10pt/1.38 "Source Sans 3",system-ui,sans-serif;overflow-wrap:break-word}
main{width:174mm;max-width:calc(100% - 8mm);margin:0 auto;padding:10mm 0}
svg{display:block;max-width:100%;height:auto;font-family:inherit}
h1{font-size:21pt;line-height:1.2;font-weight:600;margin:0 0 1mm}
h2{font-size:13pt;font-weight:600;margin:7mm 0 1.5mm;break-after:avoid}
h3{font-size:10.5pt;font-weight:600;margin:4mm 0 1mm;break-after:avoid}
p{margin:0 0 1.2mm;white-space:pre-line}
header{border-bottom:.5mm solid var(--ink);padding-bottom:2mm}
.verdict,td.words{font-style:italic}
.verdict{font-size:12.5pt;margin-top:1.5mm}
.quiet,figcaption,.remedy,dt,th{color:var(--quiet)}
.quiet,figcaption,.remedy{font-size:8.8pt}
figure{margin:3mm 0;break-inside:avoid}
figcaption{margin-bottom:1mm}
dl{display:grid;grid-template-columns:minmax(30mm,46mm) 1fr;gap:.6mm 3mm;margin:1mm 0}
dd{margin:0;white-space:pre-line}
.scroll{overflow-x:auto}
table{border-collapse:collapse;margin:2mm 0;min-width:60%;font-size:9.3pt}
th{font-weight:400;text-align:left;font-size:8.5pt;vertical-align:bottom}
th,td{padding:.6mm 4mm .6mm 0;vertical-align:top}
td{border-bottom:.1mm solid var(--faint);white-space:pre-line}
thead th,thead td{border-bottom:.25mm solid var(--ink)}
td:first-child,td.words{overflow-wrap:anywhere}
td.strong,td.strong .value{font-weight:600}
td.figure{white-space:nowrap}
.figure .value{display:inline-block;min-width:3.4em;text-align:right}
.figure .plus-minus{font-weight:400}
tr{break-inside:avoid}
ul{list-style:none;margin:1mm 0;padding:0}
li{display:grid;grid-template-columns:5mm 1fr;margin-bottom:1.2mm;break-inside:avoid}
li svg{margin-top:.9mm}
footer{margin-top:8mm;padding-top:1.5mm;border-top:.2mm solid var(--ink);font-size:8.5pt}
@page{margin:14mm 18mm}
@media print{main{padding:0;width:auto;max-width:none}}
`;
