import { render } from "preact";

const place = document.getElementById("app");
if (place) render(<p>Noonplug</p>, place);
