// The cells of a table on a slip: under which title each value stands, told apart by bars, tabs or spaces.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { slip } = globalThis.bevelbook;
  const { is, isNumber, FIELDS } = slip;

  // What reads the tables of this text: the columns of a header, and the cells of a row (null where that is not clear).
  slip.tables = function (text) {
    const lineOf = (piece) => text.slice(piece.line).split(/[\r\n]/, 1)[0];
    const role = (parts) => parts.find((piece) => FIELDS.includes(piece.role))?.role ?? "";
    const places = (piece) => [piece.start - piece.line, piece.end - piece.line];

    function divided(divider, parts) {
      const whole = lineOf(parts[0]);
      let from = parts[0].line;
      const cells = whole.split(divider).map((cell) => {
        const inside = parts.filter((piece) => piece.start >= from && piece.start < from + cell.length);
        from += cell.length + 1;
        return inside;
      });
      if (divider === "|" && !cells[0].length) cells.shift();
      if (divider === "|" && cells.length && !cells.at(-1).length && whole.trimEnd().endsWith("|")) cells.pop();
      return cells;
    }
    function underDivided(divider, columns, parts) {
      const [eye, ...values] = divided(divider, parts);
      if (eye.slice(1).some((piece) => piece.kind !== "symbol")) return null;
      if (values.slice(columns.length).some((cell) => cell.length)) return null;
      return columns.slice(0, values.length).map((column, i) => ({ role: column.role, parts: values[i] }));
    }
    function underSpaced(all, parts) {
      let from = 1;
      while (from < parts.length && ":.)".includes(parts[from].plain || " ")) from += 1;
      const values = parts.slice(from);
      const wide = values.some((piece, i) => i > 0 && piece.start - values[i - 1].end > 1);
      const groups = wide ? apart(values) : byValue(values);
      const columns = groups.length < all.length && !wide ? narrow(all, groups) : all;
      if (groups.length === columns.length) return columns.map((column, i) => ({ role: column.role, parts: groups[i] }));
      return wide && groups.length < columns.length ? under(columns, groups) : null;
    }
    function apart(values) {
      const groups = [];
      values.forEach((piece, i) => {
        if (i > 0 && piece.start - values[i - 1].end <= 1) groups.at(-1).push(piece);
        else groups.push([piece]);
      });
      return groups;
    }
    function byValue(values) {
      const groups = [];
      for (const piece of values) {
        const begins = isNumber(piece) || piece.kind === "bad" || is(piece, "plano", "sphere", "none", "x") || piece.plain === "-";
        const last = groups.at(-1)?.at(-1);
        const joins = last && (is(last, "x") || (piece.plain === "-" && last.plain === "-"));
        if (!last || (begins && !joins)) groups.push([piece]);
        else groups.at(-1).push(piece);
      }
      return groups;
    }
    function narrow(columns, groups) {
      const roles = columns.map((column) => column.role);
      const count = groups.length;
      if (roles.includes("base") && count === columns.length - 1) return columns.filter((column) => column.role !== "base");
      if (roles.slice(0, 3).join() !== "sphere,cylinder,axis") return columns;
      if ((count === 1 || count === 3) && !groups.some((group) => is(group[0], "sphere"))) return columns.slice(0, count);
      if (count > 1 && is(groups[1][0], "sphere") && (count === 2 || count === columns.length - 1)) {
        return [...columns.slice(0, 2), ...columns.slice(3)].slice(0, count);
      }
      return columns;
    }
    function under(columns, groups) {
      let last = -1;
      const cells = [];
      for (const group of groups) {
        const [start, end] = [places(group[0])[0], places(group.at(-1))[1]];
        const found = columns.flatMap((column, i) => (column.place[0] < end && start < column.place[1] ? [i] : []));
        if (found.length !== 1 || found[0] <= last) return null;
        [last] = found;
        cells.push({ role: columns[last].role, parts: group });
      }
      return cells;
    }
    function columns(divider, line) {
      const cells = divider ? divided(divider, line) : line.filter((piece) => piece.kind === "word").map((piece) => [piece]);
      const found = cells.map((parts) => ({ role: role(parts), place: parts.length ? places(parts[0]) : null }));
      return found[0]?.role === "" ? found.slice(1) : found;
    }
    function header(line) {
      const whole = lineOf(line[0]);
      const divider = whole.includes("|") ? "|" : whole.includes("\t") ? "\t" : "";
      const titles = columns(divider, line);
      return (parts) => (divider ? underDivided(divider, titles, parts) : underSpaced(titles, parts));
    }
    return header;
  };
})();
