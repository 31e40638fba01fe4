// What an answer to a drill is worth, when the drill comes again, what a session holds, and results as a link.
// Pure functions: `points` are the figures that the build gives, of lpv/facts/drill.py; a day is a whole number.
window.handbookScore = (() => {
  const clip = (value, low, high) => Math.min(Math.max(value, low), high);

  // mistakes: [{items, sides, severity, action}]; own: {nothing, said: [{item, side, severity, action}]}.
  function find(points, mistakes, own) {
    if (own.nothing) return mistakes.length ? points.allWell : points.full;
    if (!mistakes.length) return 0;
    const named = new Set(mistakes.flatMap(({ items }) => items));
    const extra = own.said.filter(({ item }) => !named.has(item)).length;
    const earned = mistakes.map((mistake) => {
      const mine = own.said.filter(({ item }) => mistake.items.includes(item));
      const any = (test) => (mine.some(test) ? 1 : 0);
      return (
        any(() => true) * points.item +
        any(({ side }) => mistake.sides.includes(side)) * points.side +
        any(({ severity }) => severity === mistake.severity) * points.severity +
        any(({ action }) => action === mistake.action) * points.action
      );
    });
    const mean = earned.reduce((sum, each) => sum + each, 0) / mistakes.length;
    return Math.round(clip(mean + extra * points.extra, 0, points.full));
  }

  // drill: {answer, low, high}: within them right, within some times them half, else nothing.
  function number(points, drill, given) {
    if (!Number.isFinite(given)) return 0;
    const off = given - drill.answer;
    const within = (factor) => off >= -drill.low * factor && off <= drill.high * factor;
    return within(1) ? points.full : within(points.near) ? points.full / 2 : 0;
  }

  // drill: {times, at, sign, remedy}; own: {stop: place or null, sign, remedy}.
  function sequence(points, drill, own) {
    if (drill.at === null) return own.stop === null ? points.full : 0;
    if (own.stop === null) return points.allWell;
    if (own.stop < drill.at) return 0; // nothing was wrong yet
    const late = drill.times[own.stop] - drill.times[drill.at];
    const moment = late <= points.inTime ? 1 : late <= points.late ? 0.5 : 0;
    return Math.round(
      moment * points.moment + (own.sign === drill.sign ? points.sign : 0) + (own.remedy === drill.remedy ? points.remedy : 0),
    );
  }

  // How often it was known in a row, and the day on which it comes again.
  function next(points, before, earned, today) {
    const step = earned >= points.known ? Math.min((before?.step ?? 0) + 1, points.again.length) : 0;
    return { step, due: step ? today + points.again[step - 1] : today };
  }

  // The drills of a session: what is due first, the longest overdue before the others, then new ones, one kind after
  // the other.  kinds: [{minutes, numbers}]; held: number -> {due, points}.
  function session(points, kinds, held, today) {
    const minutes = new Map(kinds.flatMap((kind) => kind.numbers.map((each) => [each, kind.minutes])));
    const due = [...minutes.keys()].filter((each) => held.has(each) && held.get(each).due <= today);
    due.sort((a, b) => held.get(a).due - held.get(b).due || held.get(a).points - held.get(b).points || a - b);
    const fresh = kinds.map((kind) => kind.numbers.filter((each) => !held.has(each)));
    const most = Math.max(0, ...fresh.map((each) => each.length));
    const turns = Array.from({ length: most }, (_, turn) => fresh.flatMap((each) => each.slice(turn, turn + 1))).flat();
    const chosen = [];
    let left = points.session;
    for (const each of [...due, ...turns]) {
      if (minutes.get(each) > left) continue;
      chosen.push(each);
      left -= minutes.get(each);
    }
    return chosen;
  }

  // Results as a text for the end of an address, and back; what is not as written here gives null.
  const encode = (results) => `r1${results.map(({ number: each, points: earned, day }) => `.${each}_${earned + 100}_${day}`).join("")}`;

  function decode(text) {
    if (!/^r1(\.\d{1,3}_\d{1,3}_\d{1,6})*$/.test(text)) return null;
    const found = text.split(".").slice(1).map((each) => each.split("_").map(Number));
    const results = found.map(([each, earned, day]) => ({ number: each, points: earned - 100, day }));
    return results.every(({ points: earned }) => earned <= 100) ? results : null;
  }

  const mean = (results) => (results.length ? Math.round(results.reduce((sum, each) => sum + each.points, 0) / results.length) : null);

  return { find, number, sequence, next, session, encode, decode, mean };
})();
