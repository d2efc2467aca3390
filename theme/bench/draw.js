// The drawings of the bench: one function for each calculator, of what was typed and what came out.  320 by 180.
"use strict";
(() => {
  const kernel = globalThis.bevelKernel;
  const X = 160;
  const Y = 90;
  const n = (value) => (Math.round(value * 100) / 100).toString();
  const rad = (degrees) => (degrees * Math.PI) / 180;
  const line = (kind, ...p) => `<path class="${kind}" d="M${p.map(n).join(" ")}"/>`;
  const ring = (kind, x, y, r) => `<circle class="${kind}" cx="${n(x)}" cy="${n(y)}" r="${n(r)}"/>`;
  const say = (x, y, text) => `<text x="${n(x)}" y="${n(y)}">${text}</text>`;
  const cut = (value, most) => Math.max(-most, Math.min(most, value));

  function arrow(x, y, tox, toy) {
    const length = Math.hypot(tox - x, toy - y);
    if (length < 1) return ring("point", x, y, 3);
    const [ux, uy] = [(tox - x) / length, (toy - y) / length];
    const wing = (turn) => [tox - 8 * ux + turn * 4 * uy, toy - 8 * uy - turn * 4 * ux];
    return line("line", x, y, tox, toy) + line("line", ...wing(1), tox, toy, ...wing(-1));
  }

  function through(x, y, r, angle) {
    const [dx, dy] = [r * Math.cos(rad(angle)), -r * Math.sin(rad(angle))];
    return [x - dx, y - dy, x + dx, y + dy];
  }

  // Both principal meridians of a power, each with what it holds
  function cross(x, size, sphere, cylinder, axis, show) {
    let found = ring("ink", x, Y, size);
    for (const [angle, power] of [[axis, sphere], [axis + 90, sphere + cylinder]]) {
      const [x1, y1, x2, y2] = through(x, Y, size, angle);
      found += line("line", x1, y1, x2, y2);
      const end = Math.abs(x2 - x1) > Math.abs(y2 - y1) ? x2 > x1 : y2 < y1; // at the right, or above
      const up = end ? [x2, y2] : [x1, y1];
      found += say(x + (up[0] - x) * (1 + 22 / size), Y + (up[1] - Y) * (1 + 10 / size) + 4, show("power", power).replace(" D", ""));
    }
    return found;
  }

  const notation = ([sphere, cylinder, axis], show) =>
    [show("power", sphere), show("power", cylinder), "\u00d7", show("axis", axis)].join(" ").replace(/ D|\u00b0/g, "");

  const eyeball = (x, y) => ring("ink", x, y, 24) + line("ink", x - 21, y - 11, x - 26, y, x - 21, y + 11);

  function vectors(parts, whole) {
    const most = Math.max(...parts.concat([whole]).map(([x, y]) => Math.hypot(x, y)), 0.01);
    const scale = 70 / most;
    let [x, y] = [X, Y];
    let found = line("thin", X - 150, Y, X + 150, Y) + line("thin", X, 8, X, 172);
    for (const [dx, dy] of parts) {
      found += line("ink", x, y, x + dx * scale, y - dy * scale);
      [x, y] = [x + dx * scale, y - dy * scale];
    }
    return found + arrow(X, Y, X + whole[0] * scale, Y - whole[1] * scale);
  }

  const parted = (amount, base) => [amount * Math.cos(rad(base)), amount * Math.sin(rad(base))];

  // A lens in section, thickness to the right; front curve and back as sags over half a diameter
  function section(front, backs, index, center, half, scale) {
    const sag = (curvature, y) => {
      const root = 1 - curvature * curvature * y * y;
      return root > 0 ? (curvature * y * y) / (1 + Math.sqrt(root)) : NaN;
    };
    const curve = (power) => power / (1000 * (index - 1));
    const left = [];
    const right = [];
    for (let i = -20; i <= 20; i += 1) {
      const y = (half * i) / 20;
      const vertex = backs[i < 0 ? 0 : 1] - front / (1 - (center / 1000 / index) * front);
      left.push([sag(curve(front), y), y]);
      right.push([center + sag(-curve(vertex), y), y]);
    }
    const points = left.concat(right.reverse());
    if (points.some(([x]) => !Number.isFinite(x))) return "";
    const xs = points.map(([x]) => x);
    const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
    const at = points.map(([x, y]) => n(X + (x - middle) * scale) + " " + n(Y - y * scale));
    return `<path class="glass" d="M${at.join("L")}Z"/>`;
  }

  globalThis.bevelDraw = {
    transposition: (typed, found, show) =>
      cross(66, 40, ...typed, show) + cross(230, 40, ...found.slice(0, 3), show) + say(163, Y + 4, "=") +
        say(66, 166, notation(typed, show)) + say(230, 166, notation(found, show)),
    crossed: ([s, c, a, ...other], found, show) => {
      const one = (x, power) => cross(x, 22, ...power.slice(0, 3), show);
      return one(50, [s, c, a]) + one(151, other) + one(252, found) + say(120, Y + 4, "+") + say(221, Y + 4, "=");
    },
    vertex: ([s, , , from, to], [os], show) => {
      const at = (mm) => 224 - mm * 6;
      const lens = (kind, mm) =>
        `<path class="${kind}" d="M${n(at(mm))} 36Q${n(at(mm) - 14)} 90 ${n(at(mm))} 150"/>`;
      return eyeball(250, Y) + lens("thin", from) + lens("line", to) +
        say(Math.max(24, at(from)), 16, show("power", s)) + say(Math.max(24, at(to)), 168, show("power", os)) +
        line("ink", at(from), 26, at(to), 26);
    },
    prentice: ([eye, , , , inward, up], [pin, pup], show) => {
      const way = eye === "R" ? 1 : -1;
      const scale = 60 / Math.max(8, Math.abs(inward), Math.abs(up));
      const [x, y] = [X + way * inward * scale, Y - up * scale];
      const most = Math.max(0.5, Math.hypot(pin, pup));
      return ring("thin", X, Y, 12) + line("thin", X - 18, Y, X + 18, Y) + line("thin", X, Y - 18, X, Y + 18) +
        ring("point", x, y, 4) + say(x, y - 8, "optical center") +
        arrow(X, Y, X + (way * pin * 50) / most, Y - (pup * 50) / most) +
        say(way > 0 ? 292 : 28, Y + 4, "nose") + say(X, 174, show("prism", Math.hypot(pin, pup)));
    },
    prism: ([p, b, op, ob], [, , x, y]) => vectors([parted(p, b), parted(op, ob)], [x, y]),
    "prism-resolve": ([, p, b], [, up]) => {
      const [x] = parted(p, b);
      return vectors([[x, 0], [0, up]], parted(p, b));
    },
    "near-pd": ([pd, , ], [near], show) => {
      const half = pd * 1.1;
      const lens = near * 1.1;
      const top = half + ((lens - half) * 138) / 38;
      return ring("ink", X - half, 150, 24) + ring("ink", X + half, 150, 24) +
        line("line", X - half, 150, X - top, 12) + line("line", X + half, 150, X + top, 12) +
        line("ink", X - half - 30, 112, X + half + 30, 112) + ring("point", X - lens, 112, 3) +
        ring("point", X + lens, 112, 3) + say(X, 108, show("mm", near)) + say(X, 172, show("mm", pd));
    },
    blank: ([a, b, , ed, family, , , allowance], [inward, up, exact]) => {
      const [xs, ys] = kernel.outline.from_box(a, b, ed, family);
      const scale = 160 / Math.max(exact + 2 * Math.abs(up), b + 4);
      const at = (x, y) => n(X + x * scale) + " " + n(Y - y * scale);
      const rim = `<path class="glass" d="M${xs.map((x, i) => at(x, ys[i])).join("L")}Z"/>`;
      const [x, y] = [X + inward * scale, Y - up * scale];
      return rim + ring("line", x, y, (exact * scale) / 2) + ring("thin", x, y, ((exact - allowance) * scale) / 2) +
        ring("point", x, y, 3) + `<rect class="thin" x="${n(X - (a * scale) / 2)}" y="${n(Y - (b * scale) / 2)}" width="${n(a * scale)}" height="${n(b * scale)}"/>`;
    },
    thickness: ([s, c, index, base, diameter, , ], [center, thin, thick], show) => {
      const front = (base * (index - 1)) / 0.53;
      const scale = 150 / Math.max(diameter, 40);
      const powers = [s, s + c].sort((one, other) => other - one);
      return section(front, powers, index, center, diameter / 2, scale) + line("thin", 20, Y, 300, Y) +
        say(X - 95, Y - 6, show("fine", center)) + say(X + 95, 20, show("fine", thick)) +
        say(X + 95, 172, show("fine", thin));
    },
    tilt: ([eye, , , , , tilt, wrap]) => {
      const lens = (x, angle) => line("line", ...through(x, Y, 55, angle));
      return eyeball(126, Y) + line("thin", 20, Y, 100, Y) + line("thin", ...through(60, Y, 55, 90)) + lens(60, 90 + tilt) +
        say(70, 174, "from the side") + eyeball(286, Y) + line("thin", 180, Y, 260, Y) +
        line("thin", ...through(220, Y, 55, 90)) + lens(220, eye === "R" ? 90 - wrap : 90 + wrap) + say(230, 174, "from above");
    },
    tolerance: ([, , s, c, axis], [power, , turn], show) => {
      const strongest = Math.abs(s + c) > Math.abs(s) ? s + c : s;
      const wide = (power / 0.5) * 100;
      let found = line("ink", 20, 130, 180, 130) + line("fits", 100 - cut(wide, 80), 130, 100 + cut(wide, 80), 130) +
        line("ink", 100, 120, 100, 140) + say(100, 112, show("power", strongest)) +
        say(100, 158, "± " + show("plain", power));
      found += ring("ink", 250, Y, 50);
      if (turn < 90) {
        for (const off of [-turn, turn]) found += line("thin", ...through(250, Y, 58, axis + off));
        found += line("line", ...through(250, Y, 50, axis)) + say(250, 166, "± " + show("turn", turn));
      }
      return found;
    },
    "base-curve": ([, , , , ], [vogel, taken], show) => {
      const arc = (kind, curve) => {
        const radius = curve > 0 ? 530 / curve : 1e6;
        const points = [];
        for (let y = -32; y <= 32; y += 2) {
          const root = radius * radius - y * y;
          if (root > 0) points.push(n(120 + (radius - Math.sqrt(root)) * 4) + " " + n(Y - y * 2.4));
        }
        return `<path class="${kind}" d="M${points.join("L")}"/>`;
      };
      return arc("thin", vogel) + arc("line", taken) + line("thin", 120, 10, 120, 170) +
        say(60, Y, show("plain", taken)) + say(60, Y + 16, "front");
    },
    tint: (_, [through], show) => {
      const wide = (share) => (share / 100) * 120;
      const bar = (x, share) => `<rect class="point" x="${x}" y="${n(Y - wide(share) / 2)}" width="70" height="${n(Math.max(0.6, wide(share)))}"/>`;
      const dark = n(Math.min(0.95, 1 - through / 100));
      return bar(45, 100) + bar(205, through) + `<rect class="glass" x="125" y="20" width="70" height="140"/>` +
        `<rect class="sun" x="125" y="20" width="70" height="140" opacity="${dark}"/>` +
        say(80, 174, "100 %") + say(240, 174, show("percent", through));
    },
    "tint-depth": ([dye, target], [depth], show) => {
      const most = Math.max(1.2, depth * 1.3);
      const at = (k) => [40 + (k / most) * 250, 150 - (1 - Math.pow(1 - dye / 100, k)) * 130];
      const points = [];
      for (let i = 0; i <= 40; i += 1) points.push(at((most * i) / 40).map(n).join(" "));
      const [x, y] = at(depth);
      return line("ink", 40, 20, 40, 150, 290, 150) + `<path class="line" d="M${points.join("L")}"/>` +
        line("thin", x, 150, x, y, 40, y) + ring("point", x, y, 4) + say(x, 166, show("number", depth)) +
        say(20, y + 4, n(target) + " %");
    },
  };
})();
