/**
 * The look of a sheet, the same on screen, on paper and in a file: ink on white, nothing that a photocopy of a photocopy
 * loses, A4 and US Letter from one layout (safe area 190 by 254 mm). Sizes in points and millimetres.
 */
export const PAPER_STYLE = `
.paper{max-width:180mm;padding:8mm;background:#fff;color:#000;font-family:var(--sans,system-ui,sans-serif);font-size:11.5pt;line-height:1.35;overflow-wrap:break-word}
.paper h1,.paper h2,.paper h3{font-family:var(--serif,Georgia,serif);line-height:1.15;color:#000}
.paper h1{font-size:20pt}
.paper h2{font-size:13.5pt;margin-bottom:1.5mm;break-after:avoid}
.paper h3{font-size:11.5pt;break-after:avoid}
.paper-head{padding-bottom:2mm;margin-bottom:3.5mm;border-bottom:.7mm solid #000}
.paper-head p{margin-top:.5mm}
.paper-section,.paper-box{margin-top:4.5mm}
.paper-head+.paper-section,.paper-head+.paper-box{margin-top:0}
.paper-section>p+p,.paper-box>p+p,.paper-section>p+ul,.paper-section>table+p,.paper-section>ul+p,.paper-box>ul+p,.paper-box>dl+ul{margin-top:1.6mm}
.paper-table+.paper-lines,.paper-scale,.paper-scale+.paper-facts{margin-top:2.5mm}
.paper-box{padding:2.5mm 3.5mm 3mm;border:.6mm solid #000;break-inside:avoid}
.paper-small{font-size:10pt}
.paper-loud{font-weight:700}
.paper-blank{display:inline-block;height:6mm;border-bottom:.35mm solid #000;vertical-align:bottom}
.paper-blank-wide{width:100%;min-width:18mm}
.paper-blank-short{width:22mm}
.paper-facts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,52mm),1fr));gap:1.2mm 6mm;align-items:last baseline}
.paper-facts-wide{grid-template-columns:repeat(auto-fit,minmax(min(100%,76mm),1fr))}
.paper-facts-one{grid-template-columns:minmax(0,1fr)}
.paper-facts>div{display:grid;grid-template-columns:auto minmax(14mm,1fr);align-items:baseline;gap:2mm}
.paper-facts dd{font-weight:700}
.paper-list>li{padding-left:4.5mm;text-indent:-4.5mm}
.paper-list>li::before{content:"";display:inline-block;width:1.6mm;height:1.6mm;margin-right:2.9mm;background:#000;vertical-align:middle;print-color-adjust:exact;-webkit-print-color-adjust:exact}
.paper-list>li>*{text-indent:0}
.paper-ticks>li{display:grid;grid-template-columns:5mm auto minmax(0,1fr);gap:3mm;align-items:baseline;padding:.9mm 0;border-bottom:.2mm solid #000;break-inside:avoid}
.paper-tick{width:4.5mm;height:4.5mm;border:.4mm solid #000;align-self:center}
.paper-when{min-width:14mm}
.paper-what{display:flex;flex-wrap:wrap;justify-content:space-between;gap:0 4mm;grid-column:3}
.paper-tick+.paper-what{grid-column:2/4}
.paper-amount{white-space:nowrap;margin-left:auto}
.paper-table{width:100%;border-collapse:collapse;font-size:10.5pt}
.paper-table caption{text-align:left;padding-bottom:1mm}
.paper-table th,.paper-table td{padding:.8mm 1.8mm;border:.25mm solid #000;text-align:left;vertical-align:top;font-weight:400;overflow-wrap:break-word}
.paper-table thead th{font-weight:700;border-bottom-width:.6mm;vertical-align:bottom;overflow-wrap:normal}
.paper-table tbody th{font-weight:700}
.paper-table thead{display:table-header-group}
.paper-table tr{break-inside:avoid}
.paper-table td.paper-open{min-width:14mm;height:9mm}
.paper-run td.paper-open{height:5.5mm;min-width:9mm}
.paper-lines>p{margin-bottom:.5mm}
.paper-lines .paper-blank{height:8mm}
.paper-close{font-size:10pt;line-height:1.3}
.paper-close .paper-table{font-size:9.5pt}
.paper-close .paper-step{padding:1mm 0}
.paper-close .paper-small{font-size:9.5pt}
.paper-close .paper-section,.paper-close .paper-box{margin-top:3.2mm}
.paper-close h2{font-size:12pt}
.paper-two{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:0 8mm;align-items:start}
.paper-pair{white-space:nowrap}
.paper-step{display:grid;grid-template-columns:8mm minmax(0,1fr);gap:0 2.5mm;padding:1.6mm 0;border-top:.25mm solid #000;break-inside:avoid}
.paper-number{font-family:var(--serif,Georgia,serif);font-size:14pt;font-weight:700;line-height:1.1}
.paper-boxes{display:flex;flex-wrap:wrap;gap:1.2mm 2mm;margin-top:1mm}
.paper-boxes>span{padding:.2mm 1.8mm;border:.4mm solid #000}
.paper-take{display:grid;grid-template-columns:minmax(0,1fr) 34mm;gap:5mm;align-items:start}
.paper-code{width:32mm;height:32mm;display:block}
.paper-code path{fill:#000}
.paper-address{font-size:9pt;overflow-wrap:anywhere}
.paper-name{font-family:var(--serif,Georgia,serif);font-size:24pt;font-weight:700;line-height:1.1}
.paper-weight{font-family:var(--serif,Georgia,serif);font-size:19pt;font-weight:700}
.paper-label{display:grid;gap:.8mm;padding:3mm;border:.5mm dashed #000;font-size:10pt;line-height:1.25;break-inside:avoid}
.paper-label>:first-child{font-family:var(--serif,Georgia,serif);font-size:13pt;font-weight:700}
.paper-allergen{text-transform:uppercase;font-weight:700}
.paper-entry{display:grid;grid-template-columns:25mm minmax(0,1fr) 30mm;gap:0 3mm;padding:1mm 0;border-top:.2mm solid #000;break-inside:avoid}
.paper-entry time{font-weight:700}
.paper-entry s{text-decoration-thickness:.4mm}
.paper-was{font-size:10pt}
.paper-run td,.paper-run th{font-size:9.5pt;line-height:1.2}
.paper-run .paper-time{white-space:nowrap}
.paper-student{display:flex;flex-direction:column}
.paper-student>p,.paper-student>.paper-grow{margin-top:1.5mm}
.paper-student>.paper-facts{margin-bottom:.8mm}
.paper-student .paper-table{font-size:11pt;line-height:1.15}
.paper-student .paper-table td,.paper-student .paper-table th{vertical-align:middle}
.paper-student[data-rows=many] .paper-table{font-size:9.5pt}
.paper-student .paper-table tbody th{white-space:nowrap;width:8mm;text-align:right}
.paper-student .paper-table td.paper-open{width:19mm;min-width:19mm;height:auto}
.paper-seen{font-size:10pt;line-height:1.25}
@media screen and (max-width:40rem){.paper{padding:5mm}.paper-two,.paper-take{grid-template-columns:minmax(0,1fr)}.paper-entry{grid-template-columns:minmax(0,1fr)}.paper-scroll{overflow-x:auto}}
@media print{
.paper{max-width:none;padding:0}
.paper+.paper{break-before:page}
.paper-one{height:246mm;overflow:hidden}
.paper-one .paper-student{height:246mm}
.paper-student .paper-grow{flex:1 1 0;min-height:0}
.paper-student .paper-grow>.paper-table{height:100%}
}
`;
