// Judges readings while they are typed, and saves them as the CSV that `bendgen compare` reads.
"use strict";
(() => {
  const sheet = JSON.parse(document.getElementById("sheet-data").textContent);
  const MM_PER_UNIT = { mm: 1, in: 25.4, deg: 1 };
  const SLACK = 1e-9; // a reading on the limit is within it
  const HEAD = ["part", "issue", "piece", "lot", "check", "value", "unit"];
  const SIGNED = /^[-+]?(\d+\.?\d*|\.\d+)$/;
  const FRACTION = /^(?:(\d+)[ -])?(\d+)\/([1-9]\d*)$/;

  const piece = document.getElementById("piece");
  const lot = document.getElementById("lot");
  const count = document.getElementById("count");
  const boxes = new Map(sheet.checks.map((check) => [check, document.getElementById(`read-${check.id}`)]));
  const verdicts = new Map(
    [...boxes].map(([check, box]) => [check, box.closest("tr").querySelector("output")]),
  );
  const kept = []; // lines of pieces read before this one
  let unsaved = false;

  const unitOf = (check) => (check.unit === "deg" ? "deg" : sheet.units);

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
    if (Number.isNaN(value)) return ["unread", "NO NUMBER, not saved"];
    const off = deviation(check, value);
    if (Math.abs(off) <= check.tolerance + SLACK) return ["within", "within"];
    const by = ((Math.abs(off) - check.tolerance) / MM_PER_UNIT[unit]).toPrecision(2);
    return ["out", `OUT: too ${off > 0 ? "large" : "small"} by ${Number(by)}`];
  }

  function judge() {
    const tally = { within: 0, out: 0, unread: 0 };
    for (const [check, box] of boxes) {
      const [kind, words] = judgement(check, box.value);
      const verdict = verdicts.get(check);
      verdict.className = kind;
      if (verdict.textContent !== words) verdict.textContent = words;
      if (kind) tally[kind] += 1;
    }
    const numberless = tally.unread ? `, ${tally.unread} not a number` : "";
    const before = kept.length ? `; ${kept.length} readings of pieces before` : "";
    count.textContent =
      `${tally.within + tally.out} of ${boxes.size} read: ${tally.within} within, ${tally.out} out${numberless}${before}`;
  }

  // Cell of a CSV after RFC 4180.
  const cell = (text) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  // Lines of the piece whose readings stand in the boxes.
  function linesOfPiece() {
    const name = piece.value.trim() || "1";
    return [...boxes]
      .map(([check, box]) => [check, numberIn(box.value, unitOf(check))])
      .filter(([, value]) => !Number.isNaN(value))
      .map(([check, value]) => [sheet.part, sheet.issue, name, lot.value.trim(), check.id, value, unitOf(check)]);
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
    for (const box of boxes.values()) box.value = "";
    const number = Number(piece.value);
    piece.value = Number.isInteger(number) ? String(number + 1) : "";
    judge();
    (piece.value ? [...boxes.values()][0] : piece).focus();
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
