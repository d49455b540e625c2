// The catalogue's own controls: which language, light, type and width the frames have.

const form = document.getElementById("settings");
const frames = [...document.querySelectorAll("iframe")];

const type = (frame) => {
  const root = frame.contentDocument?.documentElement;
  if (!root) return;
  if (form.elements.type.value === "") delete root.dataset.type;
  else root.dataset.type = form.elements.type.value;
};

let language = "en";
function show() {
  const { language: l, light, width } = form.elements;
  document.body.className = `${light.value} ${{ 320: "narrow", 1280: "wide" }[width.value] ?? ""}`;
  for (const frame of frames) {
    const address = `${frame.dataset.name}.${l.value}.html`;
    if (l.value !== language) {
      frame.src = address;
      frame.closest("article").querySelector("h3 a").href = address;
    }
    type(frame);
  }
  language = l.value;
}

for (const frame of frames) frame.addEventListener("load", () => type(frame));
form.addEventListener("change", show);
show();
