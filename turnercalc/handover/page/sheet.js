"use strict";
(function () {
  const motion = JSON.parse(document.getElementById("motion").textContent);
  const byId = (id) => document.getElementById(id);
  const moving = Array.from(document.querySelectorAll('.picture [class^="moving"]'));
  const line = byId("torque-line"), dot = byId("torque-dot");
  const play = byId("play"), scrub = byId("scrub"), load = byId("load"), way = byId("way");
  const count = motion.index.length, axes = motion.chart.frame;
  let frame = motion.ends[0], sense = 1, running = false, before = 0, carried = 0;

  function pose(part, element, k) {
    if (part.matrix) {
      element.setAttribute("transform", `matrix(${part.matrix[k].join(" ")})`);
      return;
    }
    const points = part.points[k];
    if (element.tagName === "circle") {
      element.setAttribute("cx", points[0]);
      element.setAttribute("cy", points[1]);
      return;
    }
    let path = "";
    for (let i = 0; i < points.length; i += 2) {
      path += (i ? "L" : "M") + points[i] + " " + points[i + 1];
    }
    element.setAttribute("d", path + (part.closed ? "Z" : ""));
  }

  function across(value) {
    return axes.left + (value - axes.x0) / (axes.x1 - axes.x0) * (axes.right - axes.left);
  }

  function up(value) {
    return axes.bottom - (value - axes.y0) / (axes.y1 - axes.y0) * (axes.bottom - axes.top);
  }

  function show(k) {
    frame = k;
    motion.parts.forEach((part, i) => pose(part, moving[i], k));
    const values = motion.chart.values[load.value][way.value];
    const torque = values[motion.index[k]];
    if (torque === null) {
      dot.setAttribute("cx", -50);
    } else {
      dot.setAttribute("cx", across(motion.position[k]));
      dot.setAttribute("cy", up(torque));
    }
    scrub.value = k;
    scrub.setAttribute("aria-valuetext", reading(k, torque));
    if (!running) { byId("reading").textContent = reading(k, torque); }
  }

  function reading(k, torque) {
    const told = torque === null ? "jams" : `${torque.toFixed(2)} ${motion.chart.unit}`;
    const gap = motion.symbol === "°" ? "" : " ";
    const head = motion.head.charAt(0).toUpperCase() + motion.head.slice(1);
    return `${head} ${motion.position[k]}${gap}${motion.symbol}: ` +
      `${motion.places[way.value][k]}; ${motion.chart.what} ${told}`;
  }

  function choose() {
    line.setAttribute("d", motion.chart.lines[load.value][way.value]);
    byId("shown-load").textContent =
      load.options[load.selectedIndex].text + ", " + way.options[way.selectedIndex].text;
    show(frame);
  }

  function step(by) {
    const ahead = way.value === "0" ? by : -by;
    if (motion.round) { return (frame + ahead + count) % count; }
    let next = frame + sense * by;
    if (next < 0 || next >= count) {
      sense = -sense;
      way.value = sense > 0 ? "0" : "1";
      next = Math.min(Math.max(frame + sense * by, 0), count - 1);
      line.setAttribute("d", motion.chart.lines[load.value][way.value]);
    }
    return next;
  }

  function tick(now) {
    if (!running) { return; }
    carried += (now - before) / 1000 * count / (motion.move * (motion.round ? 2 : 1));
    before = now;
    const whole = Math.floor(carried);
    if (whole > 0) {
      carried -= whole;
      show(step(Math.min(whole, count - 1)));
    }
    requestAnimationFrame(tick);
  }

  function run(wanted) {
    running = wanted;
    play.textContent = wanted ? "Pause" : "Play";
    if (wanted) {
      before = performance.now();
      requestAnimationFrame(tick);
    } else {
      show(frame);
    }
  }

  play.addEventListener("click", () => run(!running));
  scrub.addEventListener("input", () => {
    const wanted = Number(scrub.value); // before stopping, which sets it back
    run(false);
    show(wanted);
  });
  load.addEventListener("change", choose);
  way.addEventListener("change", () => { sense = way.value === "0" ? 1 : -1; choose(); });
  [0, 1].forEach((end) => byId("end-" + end).addEventListener("click", () => {
    run(false);
    show(motion.ends[end]);
  }));
  byId("controls").hidden = false;
  choose();
}());
