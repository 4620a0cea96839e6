// Makes still charts live where there is room; the still one stays for print and when this fails.
let library = null;

function load(address) {
  library ??= new Promise((done, failed) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => done(window.vegaEmbed);
    script.onerror = failed;
    document.head.append(script);
  });
  return library;
}

async function enliven(figure) {
  const still = figure.querySelector(".still");
  const live = figure.querySelector(".live");
  try {
    const [embed, answer] = await Promise.all([
      load(figure.dataset.script),
      fetch(figure.dataset.spec),
    ]);
    live.hidden = false;
    await embed(live, await answer.json(), {
      mode: "vega-lite", renderer: "svg", actions: false, ast: true,
    });
    if (live.scrollWidth > figure.clientWidth) throw new Error("no room");
    // To a screen reader it is one picture with the still one's words; the table has the rest.
    live.setAttribute("role", "img");
    live.setAttribute("aria-label", still.alt);
    for (const drawn of live.children) drawn.setAttribute("aria-hidden", "true");
    still.style.display = "none";
  } catch {
    live.hidden = true;
    live.replaceChildren();
  }
}

export function startCharts() {
  const figures = document.querySelectorAll("figure.chart");
  if (!figures.length) return;
  const seen = new IntersectionObserver((entries) => {
    for (const each of entries) {
      if (!each.isIntersecting) continue;
      seen.unobserve(each.target);
      enliven(each.target);
    }
  });
  for (const figure of figures) seen.observe(figure);
}
