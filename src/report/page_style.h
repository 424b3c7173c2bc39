// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::report {

/// The page's looks: dark words on white, the system's own fonts, one column that becomes two for pictures where there is
/// room. Nothing is told by colour alone.
inline constexpr const char* kPageStyle = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 68rem; background: #fff; color: #20262c;
  font: 1rem/1.5 system-ui, "DejaVu Sans", sans-serif; }
h1 { font-size: 1.6rem; line-height: 1.25; margin: 0.5rem 0; overflow-wrap: anywhere; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 0.5rem; border-bottom: 1px solid #8a929a; padding-bottom: 0.2rem; }
h3 { font-size: 1rem; margin: 1.4rem 0 0.3rem; }
p, li { max-width: 46rem; overflow-wrap: anywhere; }
ul { padding-left: 1.2rem; }
.verdict { font-size: 1.1rem; font-weight: 600; border-left: 4px solid #115475; padding-left: 0.7rem; }
.small, figcaption, caption { color: #4a535c; font-size: 0.9rem; }
/* Shadows at the edges say that there is more to the side; the row's name stays. */
.wide { overflow-x: auto; margin: 0.6rem 0 1rem; background:
    linear-gradient(to right, #fff 40%, #fff0) 0 0 / 2.5rem 100% no-repeat local,
    linear-gradient(to left, #fff 40%, #fff0) 100% 0 / 2.5rem 100% no-repeat local,
    linear-gradient(to right, #20262c40, #20262c00) 0 0 / 0.8rem 100% no-repeat scroll,
    linear-gradient(to left, #20262c40, #20262c00) 100% 0 / 0.8rem 100% no-repeat scroll; }
table { border-collapse: separate; border-spacing: 0; font-size: 0.9rem; min-width: 100%; }
caption { text-align: left; padding: 0.2rem 0; }
caption span { display: block; position: sticky; left: 0; width: max-content; max-width: calc(min(100vw, 68rem) - 2rem); }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.55rem 0.2rem 0; border-top: 1px solid #d5dade; }
thead th { border-top: 0; vertical-align: bottom; }
tbody tr:first-child > * { border-top: 1.5px solid #8a929a; }
thead th:first-child, tbody th { position: sticky; left: 0; background: #fff; }
tbody th { font-weight: 500; min-width: 7.5rem; }
td { white-space: nowrap; }
td.words { min-width: 8.5rem; white-space: normal; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.pictures { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); gap: 0.5rem 1.5rem; }
figure { margin: 0.5rem 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figure.sound audio { width: 100%; max-width: 26rem; display: block; }
.three { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); gap: 0.5rem 1rem; }
.one { max-width: 44rem; }
/* On a phone a row is a little list, each value after its head: nothing lies to the side. */
@media screen and (max-width: 40rem) {
  table, tbody, tr, caption { display: block; }
  caption span { position: static; width: auto; max-width: none; }
  thead { display: none; }
  tr { padding: 0.4rem 0; border-top: 1.5px solid #8a929a; }
  tbody th { display: block; position: static; border: 0 !important; font-weight: 600; overflow-wrap: anywhere; }
  td, td.words { display: flex; gap: 0.8rem; justify-content: space-between; white-space: normal; min-width: 0; border: 0 !important;
    padding: 0.05rem 0; text-align: right; overflow-wrap: anywhere; }
  td::before { content: attr(data-head); color: #4a535c; text-align: left; flex: none; max-width: 45%; }
}
@page { size: A4; margin: 15mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  h1 { font-size: 15pt; }
  h2, h3 { break-after: avoid; }
  tr { break-inside: avoid; }
  thead { display: table-header-group; }
  table { font-size: 7.5pt; }
  .wide { overflow: visible; background: none; }
  .one { max-width: 115mm; }
  figure svg { max-height: 235mm; }
  td.words, tbody th { min-width: 0; }
  caption span { max-width: none; width: auto; }
  .pictures { grid-template-columns: 1fr 1fr; }
  .three { grid-template-columns: 1fr 1fr 1fr; }
  figure.sound { display: none; }
}
)css";

}  // namespace ringfall::report
