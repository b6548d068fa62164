// Judges readings while they are typed, and saves them as the CSV that `bendgen compare` reads.
"use strict";
(() => {
  const sheet = JSON.parse(document.getElementById("sheet-data").textContent);
  const MM_PER_UNIT = { mm: 1, in: 25.4, deg: 1 };
  const SLACK = 1e-9; // a reading on the limit is within it
  const NO_NUMBER = "NO NUMBER, not saved";
  const HEAD = ["part", "issue", "piece", "lot", "check", "value", "unit"];
  const SIGNED = /^[-+]?(\d+\.?\d*|\.\d+)$/;
  const FRACTION = /^(?:(\d+)[ -])?(\d+)\/([1-9]\d*)$/;

  const piece = document.getElementById("piece");
  const lot = document.getElementById("lot");
  const count = document.getElementById("count");
  const boxOf = (reading) => document.getElementById(`read-${reading.id}`);
  const bends = sheet.diameters.map((pair) => pair.map((id) => ({ id, unit: "mm" }))); // largest, smallest
  const readings = [...sheet.checks, ...bends.flat()];
  const kept = []; // lines of pieces read before this one
  let unsaved = false;

  const unitOf = (reading) => (reading.unit === "deg" ? "deg" : sheet.units);

  // Number in a box, NaN for anything else; a comma is a point, and inches may be fractions: 4 1/2.
  function numberIn(text, unit) {
    const plain = text.trim().replace(",", ".").replace("\u2212", "-");
    if (SIGNED.test(plain)) return Number(plain);
    const parts = unit === "in" ? FRACTION.exec(plain) : null;
    return parts ? Number(parts[1] || 0) + Number(parts[2]) / Number(parts[3]) : NaN;
  }

  // Reading less wanted value, in mm or degrees; of a rotation the shorter way round.
  function deviation(check, value) {
    const difference = value * MM_PER_UNIT[unitOf(check)] - check.wanted;
    return check.id.startsWith("rotation-") ? ((((difference + 180) % 360) + 360) % 360) - 180 : difference;
  }

  function judgement(check, text) {
    if (!text.trim()) return ["", ""];
    const unit = unitOf(check);
    const value = numberIn(text, unit);
    if (Number.isNaN(value)) return ["unread", NO_NUMBER];
    const off = deviation(check, value);
    if (Math.abs(off) <= check.tolerance + SLACK) return ["within", "within"];
    const by = ((Math.abs(off) - check.tolerance) / MM_PER_UNIT[unit]).toPrecision(2);
    return ["out", `OUT: too ${off > 0 ? "large" : "small"} by ${Number(by)}`];
  }

  // What two diameters say of a bend: no tolerance judges them.
  function ovality(pair) {
    const texts = pair.map((reading) => boxOf(reading).value).filter((text) => text.trim());
    const values = texts.map((text) => numberIn(text, sheet.units) * MM_PER_UNIT[sheet.units]);
    if (values.some(Number.isNaN)) return ["unread", NO_NUMBER];
    if (values.length < pair.length) return ["", ""];
    const [largest, smallest] = values;
    if (largest < smallest) return ["out", "largest is less than smallest"];
    const percent = (over) => `${((100 * (largest - smallest)) / over).toFixed(2)} %`;
    return ["told", `oval by ${percent((largest + smallest) / 2)} of mean, ${percent(sheet.od)} of nominal`];
  }

  function show(verdict, [kind, words]) {
    verdict.className = kind;
    if (verdict.textContent !== words) verdict.textContent = words;
    return kind;
  }

  function judge() {
    const tally = { "": 0, within: 0, out: 0, unread: 0 };
    for (const check of sheet.checks) {
      tally[show(boxOf(check).closest("tr").querySelector("output"), judgement(check, boxOf(check).value))] += 1;
    }
    for (const pair of bends) show(boxOf(pair[0]).closest(".diameter-pair").querySelector("output"), ovality(pair));
    const numberless = tally.unread ? `, ${tally.unread} not a number` : "";
    const before = kept.length ? `; ${kept.length} readings of pieces before` : "";
    count.textContent =
      `${tally.within + tally.out} of ${sheet.checks.length} read: ${tally.within} within, ${tally.out} out${numberless}${before}`;
  }

  // Cell of a CSV after RFC 4180.
  const cell = (text) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  // Lines of the piece whose readings stand in the boxes.
  function linesOfPiece() {
    const name = piece.value.trim() || "1";
    return readings
      .map((reading) => [reading, numberIn(boxOf(reading).value, unitOf(reading)), unitOf(reading)])
      .filter(([, value]) => !Number.isNaN(value))
      .map(([{ id }, value, unit]) => [sheet.part, sheet.issue, name, lot.value.trim(), id, value, unit]);
  }

  // NUMBER_REVISION_ISSUE, as the file of this page is called.
  function nameOfSheet() {
    const file = decodeURIComponent(location.pathname.split("/").pop());
    return file.replace(/\.sheet\.html$/, "") || "part";
  }

  function save() {
    const lines = [HEAD, ...kept, ...linesOfPiece()];
    const text = lines.map((line) => line.map((value) => cell(String(value))).join(",") + "\n").join("");
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "text/csv" }));
    link.download = `${nameOfSheet()}.measured.csv`;
    link.click();
    URL.revokeObjectURL(link.href);
    unsaved = false;
  }

  function next() {
    kept.push(...linesOfPiece());
    for (const reading of readings) boxOf(reading).value = "";
    const number = Number(piece.value);
    piece.value = Number.isInteger(number) ? String(number + 1) : "";
    judge();
    (piece.value ? boxOf(readings[0]) : piece).focus();
  }

  document.querySelector(".readings").addEventListener("input", () => {
    unsaved = true;
    judge();
  });
  document.getElementById("save").addEventListener("click", save);
  document.getElementById("next").addEventListener("click", next);
  window.addEventListener("beforeunload", (event) => {
    if (unsaved) event.preventDefault();
  });
  document.getElementById("saving").hidden = false;
  judge();
})();
