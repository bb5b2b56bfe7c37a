// Before the first paint: the look, size and direction this phone was left in, so that nothing flashes, and its words on their way.
try {
  var root = document.documentElement;
  var kept = JSON.parse(localStorage.getItem("noonplug") || "{}");
  if (localStorage.getItem("noonplug-look") === "night") root.dataset.look = "night";
  if (/^[1-4]$/.test(kept.textSize)) root.dataset.size = kept.textSize;
  if (/^[a-z]{2}$/.test(kept.language)) root.lang = kept.language;
  if (kept.language === "ur") root.dir = "rtl";
} catch (_) {}
try {
  var files = root.dataset.words.split(" ");
  var fileOf = function (tag) {
    return files.find(function (file) { return file.includes("/words-" + tag.slice(0, 2) + "-"); });
  };
  var link = document.createElement("link");
  link.rel = "modulepreload";
  link.href = "/" + [kept && kept.language || ""].concat(navigator.languages, "en").map(fileOf).find(Boolean);
  document.head.append(link);
} catch (_) {}
