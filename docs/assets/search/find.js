/* Finds pages: what a reader asked, in words, symbols or abbreviations, to the pages that answer it.
 *
 *   const find = handbookFinder(MiniSearch, { pages, synonyms });
 *   find("how much lag damping")   pages, best first: { page, place } with the section that answers
 *
 * `pages` holds { address, title, chapter, names, forms, sections: [{ anchor, title, text }] }, and
 * `synonyms` groups of phrases that mean the same.  Loaded when the search is first used.
 */
"use strict";

function handbookFinder(MiniSearch, { pages, synonyms }) {
  const GREEK = {
    α: "alpha", β: "beta", γ: "gamma", δ: "delta", ε: "epsilon", ζ: "zeta", η: "eta", θ: "theta",
    κ: "kappa", λ: "lambda", μ: "mu", ν: "nu", ξ: "xi", π: "pi", ρ: "rho", ς: "sigma", σ: "sigma",
    τ: "tau", φ: "phi", χ: "chi", ψ: "psi", ω: "omega",
  };
  const PASSED_OVER = new Set(
    ("a about all am an and any are as at be been before both but by can could did do does for from " +
      "get had has have how i if in into is it its long me mine much my of on or our out shall should " +
      "so tell than that the their them then there these this those to up use was we well were what when " +
      "where whether which while who whose why will with work would you your").split(" "),
  );
  const SPELLINGS = [
    [/isation/, "ization"], [/is(e|ed|es|ing)$/, "iz$1"], [/ys(e|ed|es|ing)$/, "yz$1"],
    [/our(s|ed|ing|al)?$/, "or$1"], [/tre(s?)$/, "ter$1"], [/^tyre/, "tire"], [/^fibre/, "fiber"],
    [/^grey/, "gray"], [/ogue$/, "og"], [/amme(s?)$/, "am$1"], [/ll(ed|ing|er)$/, "l$1"],
    [/^aluminium$/, "aluminum"],
  ];
  const ENDINGS = [
    [/'s?$/, ""], [/(ch|sh|ss|x)es$/, "$1"], [/ies$/, "y"], [/([^siu])s$/, "$1"],
    [/(.{3,}[aeiouy].*)(ations?|ators?)$/, "$1"], [/(.{4,})ments?$/, "$1"], [/(.{4,})ing$/, "$1"],
    [/(.{4,})ed$/, "$1"], [/(.{3,})ate$/, "$1"], [/(.{3,})e$/, "$1"],
  ];
  const WEIGHTS = { title: 9, names: 8, forms: 6, headings: 2.5, text: 1 };

  const roots = new Map(); // of the words met so far: a handbook has few words, often

  /** The word that stands for all its spellings and endings. */
  function root(word) {
    if (!roots.has(word)) roots.set(word, rooted(word));
    return roots.get(word);
  }

  function rooted(word) {
    if (word.length < 4 || /\d/.test(word)) return word;
    for (const [pattern, replacement] of SPELLINGS) word = word.replace(pattern, replacement);
    for (const [pattern, replacement] of ENDINGS) word = word.replace(pattern, replacement);
    return word;
  }

  /** The words of a text; what a slash joins, as in 4/rev, is one word and its parts. */
  function words(text) {
    const plain = text
      .normalize("NFKD")
      .replace(/[\u0300-\u036f]/g, "")
      .toLowerCase()
      .replace(/[α-ω]/g, (letter) => ` ${GREEK[letter]} `)
      .replace(/ *\/ */g, "/")
      .replace(/_/g, "");
    const found = plain.match(/[a-z0-9]+(?:[/.'’][a-z0-9]+)*/g) ?? [];
    return found.flatMap((word) => {
      const parts = word.split("/").map(root);
      return parts.length > 1 ? [parts.join("/"), ...parts.filter((part) => part.length > 1)] : parts;
    });
  }

  function asked(text) {
    const all = words(text);
    const told = all.filter((word) => !PASSED_OVER.has(word));
    return told.length > 0 ? told : all;
  }

  const index = new MiniSearch({
    idField: "number",
    fields: Object.keys(WEIGHTS),
    tokenize: words,
    processTerm: (word) => word,
    searchOptions: { boost: WEIGHTS, combineWith: "OR", tokenize: (text) => [text] },
  });
  index.addAll(
    pages.map((page, number) => ({
      number,
      title: page.title,
      names: page.names.join("; "),
      forms: page.forms.join("; "),
      headings: page.sections.map((section) => section.title).join("; "),
      text: page.sections.map((section) => section.text).join(" "),
    })),
  );
  const called = pages.map((page) =>
    [page.title, ...page.names, ...page.forms].map((name) => ` ${asked(name).join(" ")} `),
  );
  const groups = synonyms.map((group) => group.map((phrase) => asked(phrase)));

  /** What each word of a question may be called instead: other phrases of its group. */
  function otherwise(terms) {
    const said = ` ${terms.join(" ")} `;
    return groups.flatMap((group) => {
      const meant = group.filter((phrase) => said.includes(` ${phrase.join(" ")} `));
      const longest = meant.sort((a, b) => b.length - a.length)[0];
      return longest ? group.filter((phrase) => phrase !== longest).map((phrase) => ({ of: longest, phrase })) : [];
    });
  }

  /** How much of one of the names is in the question, and of the question in the name: 1 is all. */
  function likeness(names, terms) {
    const parts = names.map((name) => {
      const told = new Set(name.trim().split(" "));
      const shared = terms.filter((word) => told.has(word)).length;
      return shared / (told.size + terms.length - shared);
    });
    return Math.max(...parts);
  }

  function find(question) {
    const terms = asked(question);
    if (terms.length === 0) return [];
    const others = otherwise(terms);
    const like = {
      prefix: (term) => term.length > 2,
      fuzzy: (term) => (term.length > 4 && !/\d/.test(term) ? 0.2 : false),
      weights: { prefix: 0.4, fuzzy: 0.3 },
    };
    const found = index.search({
      combineWith: "OR",
      queries: [
        { queries: terms, ...like },
        ...others.map(({ phrase }) => ({ queries: phrase, combineWith: "AND", boostTerm: () => 0.7 })),
      ],
    });
    const spaced = (phrase) => ` ${phrase.join(" ")} `;
    const phrases = [terms, ...others.map(({ phrase }) => phrase)].map(spaced);
    const all = others.filter(({ of }) => of.length === terms.length); // which say all that was asked
    const wholes = [terms, ...all.map(({ phrase }) => phrase)].map(spaced);
    const scored = found.map((hit) => {
      const said = new Set(hit.queryTerms);
      for (const { of, phrase } of others) {
        if (phrase.every((word) => said.has(word))) for (const word of of) said.add(word);
      }
      const share = terms.filter((word) => said.has(word)).length / terms.length;
      const named = called[hit.id].some((name) => wholes.includes(name));
      const within = called[hit.id].some((name) => phrases.some((phrase) => phrase.length > 4 && name.includes(phrase)));
      return { number: hit.id, score: hit.score * share ** 2 * (named ? 4 : within ? 1.8 : 1) * (1 + 2 * likeness(called[hit.id], terms)) };
    });
    const best = scored.sort((a, b) => b.score - a.score).slice(0, 10);
    return best.filter(({ score }) => score > 0.01 * best[0].score).map(({ number }) => ({ page: pages[number], place: section(pages[number], terms, others) }));
  }

  /** The section of a page that holds most of the words. */
  function section(page, terms, others) {
    const wanted = new Set([...terms, ...others.flatMap(({ phrase }) => phrase)]);
    const scores = page.sections.map((part) => {
      const title = new Set(words(part.title));
      const text = new Set(words(part.text));
      return [...wanted].reduce((sum, word) => sum + 2 * title.has(word) + text.has(word), 0);
    });
    return page.sections[scores.indexOf(Math.max(...scores))];
  }

  return find;
}
