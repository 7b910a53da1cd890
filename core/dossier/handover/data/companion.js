"use strict";
// Finds panels in the data of this page and shows one. Every text goes in as a text, never as markup.
(function () {
  const data = JSON.parse(document.getElementById("data").textContent);
  const byId = function (id) { return document.getElementById(id); };
  const text = function (index) { return data.texts[index]; };
  const search = byId("search");
  const storey = byId("storey");
  const onlyOpen = byId("only-open");
  const list = byId("list");
  const count = byId("count");
  const more = byId("more");
  const shownAtOnce = 100;
  const printedPoints = 8;
  const printedRecords = 6;
  let limit = shownAtOnce;
  let found = [];

  function make(name, options, children) {
    const element = document.createElement(name);
    const given = options || {};
    if (given.text !== undefined) element.textContent = given.text;
    if (given.className) element.className = given.className;
    for (const key of Object.keys(given.attributes || {})) element.setAttribute(key, given.attributes[key]);
    (children || []).forEach(function (child) { if (child) element.append(child); });
    return element;
  }
  // A text of the project: it may run from right to left, and must not turn what stands around it.
  const own = function (name, value, className) {
    return make(name, { text: value, className: className, attributes: { dir: "auto" } });
  };

  // Several of them, each in its own direction.
  function inRow(indexes, className) {
    const row = make("span", { className: className });
    indexes.map(text).filter(Boolean).forEach(function (value, i) {
      if (i > 0) row.append(", ");
      row.append(own("bdi", value));
    });
    return row;
  }

  const panels = data.panels.map(function (panel) {
    const words = [panel.mark, text(panel.type), text(panel.storey), text(panel.building), panel.serial]
      .concat(panel.batches.map(text));
    return { panel: panel, haystack: words.join("\n").toLowerCase() };
  });

  // `panel-dossier:GLOBALID`, with a part's mark behind it on the label of a part; or the GlobalId alone.
  function idIn(query) {
    const code = /panel-dossier:([0-9A-Za-z_$]{22})(?![0-9A-Za-z_$])/.exec(query);
    if (code) return code[1];
    return /^[0-9A-Za-z_$]{22}$/.test(query) ? query : null;
  }

  function matching() {
    const query = search.value.trim();
    const id = idIn(query);
    const exact = id === null ? [] : panels.filter(function (entry) { return entry.panel.id === id; });
    if (exact.length > 0 || query.indexOf("panel-dossier:") === 0) return exact;
    const words = query.toLowerCase().split(/\s+/).filter(Boolean);
    const hits = panels.filter(function (entry) {
      return (storey.value === "" || text(entry.panel.storey) === storey.value) &&
        (!onlyOpen.checked || entry.panel.open.length > 0) &&
        words.every(function (word) { return entry.haystack.indexOf(word) >= 0; });
    });
    // The panel of that very mark or serial number before those that only hold it somewhere.
    const is = function (entry) {
      return [entry.panel.mark, entry.panel.serial].some(function (name) { return name.toLowerCase() === query.toLowerCase(); });
    };
    return query === "" ? hits : hits.filter(is).concat(hits.filter(function (entry) { return !is(entry); }));
  }

  const points = function (panel) {
    return panel.open.length === 1 ? "1 open point" : panel.open.length + " open points";
  };
  const address = function (panel) { return "#panel=" + encodeURIComponent(panel.id); };

  function listItem(entry) {
    const panel = entry.panel;
    const link = make("a", { attributes: { href: address(panel) } }, [
      own("span", panel.mark || "(without a mark)", "mark"), " ",
      inRow([panel.storey, panel.type], "where"), " ",
      panel.open.length > 0 ? make("span", { text: points(panel), className: "state" }) : null
    ]);
    if (address(panel) === location.hash) link.setAttribute("aria-current", "true");
    return make("li", {}, [link]);
  }

  function showList() {
    list.replaceChildren.apply(list, found.slice(0, limit).map(listItem));
    more.hidden = found.length <= limit;
    let words = found.length === 1 ? "1 panel" : found.length + " panels";
    if (data.panels.length === 0) words = "The project has no panels";
    else if (found.length === 0) words = "No panel has this mark, storey, serial number, batch or code";
    else if (found.length > limit) words += ", of which the first " + limit + " are listed";
    count.textContent = words + ".";
  }

  function find() {
    document.body.classList.remove("reading");
    limit = shownAtOnce;
    found = matching();
    showList();
  }

  function factList(rows) {
    const children = [];
    rows.forEach(function (row) {
      const value = text(row[1]);
      children.push(make("dt", { text: text(row[0]) }));
      children.push(value === "" ? make("dd", { text: "not given", className: "none" }) : own("dd", value));
    });
    return make("dl", {}, children);
  }

  const heading = function (words) { return make("h3", { text: words }); };

  // What does not go on one printed page is told of there.
  function cut(items, most, what) {
    items.forEach(function (item, i) { if (i >= most) item.classList.add("screen-only"); });
    if (items.length <= most) return null;
    return make("p", { text: "And " + (items.length - most) + " more " + what + ": see the dossier.", className: "print-only" });
  }

  function picture(panel) {
    if (panel.picture < 0) {
      const where = panel.page ? " Page " + panel.page[1] + " of " + panel.page[0] + " has the drawing." : "";
      const why = data.project.picturesLeftOut ? "The picture is left out to keep this page small." + where
        : "There is no drawing: the export gives no size.";
      return make("p", { text: why, className: "none" });
    }
    const source = byId("picture-" + panel.picture).textContent;
    const drawing = document.importNode(new DOMParser().parseFromString(source, "image/svg+xml").documentElement, true);
    drawing.setAttribute("role", "img");
    drawing.setAttribute("aria-label", "Elevation of panel " + panel.mark + ", seen from inside");
    const missing = text(panel.missing);
    return make("figure", {}, [drawing, make("figcaption", {
      text: "Elevation seen from inside, dimensions in mm, not to scale." + (missing ? " " + missing : "")
    })]);
  }

  function openPoints(panel) {
    if (panel.open.length === 0) return [make("p", { text: "None: no check of this panel fails, waits for evidence or lacks an input.", className: "none" })];
    const items = panel.open.map(function (row) {
      return make("li", {}, [
        make("span", { text: text(row[0]), className: "verdict" }), ": " + text(row[1]) + ". ", own("span", text(row[2])), " ",
        make("span", { text: "Can be closed by: " + text(row[3]) + ".", className: "who" })
      ]);
    });
    const note = cut(items, printedPoints, "open points");
    return [make("ul", { className: "points" }, items), note];
  }

  function inspections(panel) {
    if (panel.inspections.length === 0) {
      return [make("p", { text: "No day is stated. The dossier's part on operation and maintenance gives the usual intervals.", className: "none" })];
    }
    return [make("ul", { className: "dates" }, panel.inspections.map(function (row) {
      return make("li", {}, [make("strong", { text: text(row[0]) }), " ", own("span", text(row[1])), " ", own("span", "(" + text(row[2]) + ")", "none")]);
    }))];
  }

  function records(panel) {
    if (panel.records.length === 0) return [make("p", { text: "No records of workshop or site.", className: "none" })];
    const newest = panel.records.slice().reverse().map(function (row) {
      const by = [text(row[3]), text(row[4])].filter(Boolean).join("; ");
      return make("li", {}, [make("strong", { text: text(row[0]) }), " " + text(row[1]) + ": ", own("span", text(row[2])), by ? own("span", " (" + by + ")", "none") : null]);
    });
    const note = cut(newest, printedRecords, "records");
    return [make("ul", { className: "dates" }, newest), note];
  }

  function actions(panel) {
    const print = make("button", { text: "Print this panel", attributes: { type: "button" } });
    print.addEventListener("click", function () { window.print(); });
    const page = panel.page ? make("a", {
      text: "Page " + panel.page[1] + " of " + panel.page[0],
      attributes: { href: encodeURIComponent(panel.page[0]) + "#page=" + panel.page[2] }
    }) : null;
    return make("div", { className: "actions" }, [print, page, make("a", { text: "Back to the search", attributes: { href: "#search" } })]);
  }

  function items(indexes, empty) {
    if (indexes.length === 0) return make("p", { text: empty, className: "none" });
    return make("ul", { className: "rules" }, indexes.map(function (index) { return own("li", text(index)); }));
  }

  function showPanel(panel) {
    const title = make("h2", { text: "Panel ", attributes: { id: "panel-heading", tabindex: "-1" } }, [own("bdi", panel.mark)]);
    const place = panel.page ? "Page " + panel.page[1] + " of " + panel.page[0] + ". " : "";
    const section = byId("panel");
    section.replaceChildren(
      title,
      make("p", { className: "lead" }, [inRow([panel.building, panel.storey, panel.type], "")]),
      make("p", { text: place + "Build of " + data.project.build.replace("T", " ").replace(/:\d\dZ$/, " UTC") + (data.project.issue ? ", issue " + data.project.issue : "") + ". panel-dossier:" + panel.id, className: "print-only" }),
      actions(panel),
      make("div", { className: "first" }, [
        make("div", {}, [heading("Picture"), picture(panel)]),
        make("div", { className: "state" }, [heading("Figures"), factList(panel.figures),
          heading(panel.open.length > 0 ? "Open points (" + panel.open.length + ")" : "Open points")]
          .concat(openPoints(panel), [heading("Next inspection")], inspections(panel))),
        make("div", { className: "identity" }, [heading("Identity"), factList(panel.facts)])
      ])
    );
    section.append(heading("Before drilling, cutting or fixing"), items(panel.rules, "Nothing is known: ask the maker."),
      heading("Fixings"), items(panel.fixings, "The export gives no fixings of this panel."), heading("Records, the newest first"));
    section.append.apply(section, records(panel).filter(Boolean));
    section.hidden = false;
    document.body.classList.add("has-panel", "reading");
    document.title = "Panel " + panel.mark + ": " + data.project.name;
    title.focus();
    section.scrollIntoView();
  }

  function showNone() {
    byId("panel").hidden = true;
    byId("panel").replaceChildren();
    document.body.classList.remove("has-panel", "reading");
    document.title = "Panels: " + data.project.name;
  }

  function follow() {
    const asked = /^#panel=(.*)$/.exec(location.hash);
    if (!asked) {
      document.body.classList.remove("reading");
      if (location.hash === "#search") {
        search.focus();
      } else {
        showNone();
        showList();
      }
      return;
    }
    let id = asked[1];
    try { id = decodeURIComponent(id); } catch (error) { /* as it stands: then no panel has it */ }
    const entry = panels.find(function (known) { return known.panel.id === id; });
    if (entry) {
      showPanel(entry.panel);
    } else {
      showNone();
      count.textContent = "The address of this page names a panel that is not in the project.";
      return;
    }
    showList();
  }

  // One A4 page: what is higher is made smaller as a whole.
  function fitPage() {
    const section = byId("panel");
    if (section.hidden) return;
    const looks = document.documentElement.style;
    looks.setProperty("--print-zoom", "1");
    section.classList.add("sheet");
    const pixelsOfMillimetre = 96 / 25.4;
    const room = 260 * pixelsOfMillimetre;
    // What is smaller is broken into other lines, so one step does not always do.
    let zoom = 1;
    for (let step = 0; step < 8 && section.getBoundingClientRect().height > room && zoom > 0.35; step += 1) {
      zoom = Math.max(0.35, zoom * Math.min(0.97, Math.sqrt(room / section.getBoundingClientRect().height)));
      looks.setProperty("--print-zoom", String(zoom));
    }
  }
  function leavePage() {
    byId("panel").classList.remove("sheet");
  }

  function startCamera() {
    const says = byId("camera-says");
    const video = byId("video");
    let stream = null;
    const stop = function (words) {
      if (stream) stream.getTracks().forEach(function (track) { track.stop(); });
      stream = null;
      byId("camera").hidden = true;
      says.textContent = words;
    };
    const look = function (detector) {
      if (!stream) return;
      detector.detect(video).then(function (codes) {
        const code = codes.map(function (seen) { return seen.rawValue; }).find(function (value) { return idIn(value) !== null; });
        if (!code) { window.setTimeout(look, 200, detector); return; }
        search.value = code;
        find();
        stop(found.length === 1 ? "Code read." : "Code read: no panel of this project has it.");
        if (found.length === 1) location.hash = address(found[0].panel);
      }).catch(function () { window.setTimeout(look, 500, detector); });
    };
    says.textContent = "";
    navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } }).then(function (opened) {
      stream = opened;
      video.srcObject = opened;
      byId("camera").hidden = false;
      byId("stop-scan").onclick = function () { stop("The camera is off."); byId("scan").focus(); };
      byId("stop-scan").focus();
      return video.play().then(function () { look(new window.BarcodeDetector({ formats: ["qr_code"] })); });
    }).catch(function () { stop("The camera cannot be used here. Type the text of the code instead."); });
  }

  function offerCamera() {
    if (!("BarcodeDetector" in window) || !navigator.mediaDevices || !navigator.mediaDevices.getUserMedia) return;
    window.BarcodeDetector.getSupportedFormats().then(function (formats) {
      if (formats.indexOf("qr_code") < 0) return;
      byId("scan").hidden = false;
      byId("scan").addEventListener("click", startCamera);
    }).catch(function () { /* no camera is offered */ });
  }

  Array.from(new Set(data.panels.map(function (panel) { return text(panel.storey); }))).forEach(function (name) {
    if (name !== "") storey.append(own("option", name));
  });
  search.addEventListener("input", find);
  search.addEventListener("focus", function () { document.body.classList.remove("reading"); });
  storey.addEventListener("change", find);
  onlyOpen.addEventListener("change", find);
  more.addEventListener("click", function () {
    const next = limit;
    limit += shownAtOnce;
    showList();
    list.children[next].querySelector("a").focus();
  });
  byId("find").addEventListener("submit", function (event) {
    event.preventDefault();
    if (found.length > 0) location.hash = address(found[0].panel);
  });
  window.addEventListener("hashchange", follow);
  window.addEventListener("beforeprint", fitPage);
  window.addEventListener("afterprint", leavePage);
  offerCamera();
  find();
  follow();
}());
