// Before the first paint: the look, size and direction this phone was left in, so that nothing flashes. No more than that.
try {
  var root = document.documentElement;
  var kept = JSON.parse(localStorage.getItem("noonplug") || "{}");
  if (localStorage.getItem("noonplug-look") === "night") root.dataset.look = "night";
  if (/^[1-4]$/.test(kept.textSize)) root.dataset.size = kept.textSize;
  if (/^[a-z]{2}$/.test(kept.language)) root.lang = kept.language;
  if (kept.language === "ur") root.dir = "rtl";
} catch (_) {}
