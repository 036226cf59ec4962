#include "handout_style.hpp"

namespace evenlit {

const char* const k_handout_style = R"(
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #f4f1ea; color: #24262b;
  font: 1.0625rem/1.55 "Source Sans 3", "Segoe UI", "Noto Sans", "Liberation Sans", sans-serif;
  overflow-wrap: anywhere; }
.sheet { max-width: 52rem; margin: 0 auto; padding: 2rem 1rem 3rem; background: #fff; }
h1, h2, h3 { font-family: Charter, "Source Serif 4", "Noto Serif", "Liberation Serif", serif; font-weight: 600;
  line-height: 1.2; margin: 0; }
h1 { font-size: 2.25rem; }
h2 { font-size: 1.45rem; margin: 2.4rem 0 .7rem; padding-top: .7rem; border-top: 1px solid #8a8577; }
h3 { font-size: 1.15rem; margin: 0 0 .3rem; }
h1, h3 { overflow-wrap: anywhere; }
p { margin: 0 0 .8rem; }
.kind { font-size: .95rem; letter-spacing: .06em; color: #4a4d55; margin: 0 0 .3rem; }
.lead { font-size: 1.2rem; margin: .8rem 0 0; }
ul { margin: 0 0 .8rem; padding-left: 1.2rem; }
li { margin: 0 0 .3rem; }
.facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(13rem, 1fr)); gap: 1rem 1.5rem;
  margin: 1.5rem 0 0; padding: 0; list-style: none; }
.facts li { border-left: 3px solid #24262b; padding-left: .8rem; margin: 0; font-size: .97rem; }
.facts strong { display: block; font-size: 1.3rem; line-height: 1.3; }
figure { margin: 1.2rem 0; }
img { display: block; max-width: 100%; height: auto; margin: 0 auto; border: 1px solid #8a8577; }
figcaption { font-size: .97rem; color: #3a3d44; margin-top: .5rem; }
table { border-collapse: collapse; width: 100%; margin: .6rem 0 1rem; }
caption { text-align: left; font-size: .97rem; color: #3a3d44; padding-bottom: .4rem; }
th, td { text-align: left; vertical-align: top; font-weight: normal; padding: .45rem .8rem .45rem 0;
  border-bottom: 1px solid #b9b5a9; overflow-wrap: break-word; }
thead th { font-size: .95rem; color: #3a3d44; border-bottom: 2px solid #24262b; }
tbody th { font-weight: 600; }
th small { display: block; font-size: .93rem; font-weight: normal; color: #3a3d44; }
.unit { white-space: nowrap; }
.moods { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 1.4rem 2rem; }
.moods p, .moods ul { margin-bottom: .5rem; }
.mind { border: 2px solid #24262b; padding: .9rem 1.1rem .3rem; }
.mind > p { font-weight: 600; }
footer { margin-top: 2rem; font-size: .95rem; color: #3a3d44; }
@media (max-width: 30rem) { table { font-size: .95rem; } th, td { padding-right: .5rem; } }
@media print, (min-width: 40rem) { td:nth-child(2) { min-width: 9rem; } }
@media screen and (min-width: 40rem) { .sheet { padding: 3rem 3.5rem 4rem; } }
@page { margin: 13mm 16mm; }
@media print {
  html { font-size: 9.6pt; }
  body { background: none; font-size: 1rem; line-height: 1.35; }
  .sheet { max-width: none; padding: 0; }
  h2 { margin: 4mm 0 1.5mm; padding-top: 1.5mm; break-after: avoid; }
  h3, caption { break-after: avoid; }
  .lead { font-size: 1.1rem; margin-top: 1.5mm; }
  .facts { margin-top: 3mm; grid-template-columns: repeat(3, 1fr); }
  p, ul, table { margin-top: 0; margin-bottom: 1.5mm; }
  li { margin-bottom: .3mm; }
  th, td { padding-top: .6mm; padding-bottom: .6mm; }
  figure { margin: 2mm 0; }
  figcaption { margin-top: 1mm; }
  .moods { grid-template-columns: repeat(auto-fit, minmax(52mm, 1fr)); gap: 3mm 6mm; }
  .moods p, .moods ul { margin-bottom: 1mm; }
  .mind { padding: 2mm 4mm 0; margin-bottom: 2mm; }
  figure, table, ul, article, .mind { break-inside: avoid; }
  img { max-height: 78mm; width: auto; }
  .seen img { max-height: 52mm; }
  figure:has(+ .moods) img { max-height: 118mm; }
  p { orphans: 3; widows: 3; }
}
)";

}  // namespace evenlit
