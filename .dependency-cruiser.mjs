// The import directions of the house (DEVELOPERS.md, "Layout"): each folder may use only those to its left.
const layers = [
  ["units", "statistics"],
  ["setup"],
  ["acoustics", "flow", "lips", "listen", "response", "bench", "trial", "record"],
  ["study"],
  ["words"],
  ["drawing"],
];
const rules = layers.slice(0, -1).map((layer, i) => ({
  name: `${layer.join("-")}-imports-only-what-stands-before-it`,
  severity: "error",
  from: { path: `^src/(${layer.join("|")})/` },
  to: {
    path: `^(workers|src/(${layers
      .slice(i + 1)
      .flat()
      .concat("charts", "app", "cli")
      .join("|")}))/`,
  },
}));
export default {
  forbidden: [
    ...rules,
    {
      name: "words-and-drawings-are-below-the-people",
      severity: "error",
      from: { path: "^src/(words|drawing)/" },
      to: { path: "^(workers|src/(charts|app|cli))/" },
    },
    {
      name: "siblings-do-not-know-each-other",
      severity: "error",
      from: { path: "^src/(acoustics|flow|lips|listen|response|bench|trial|record)/" },
      to: { path: "^src/(acoustics|flow|lips|listen|response|bench|trial|record)/", pathNot: "^src/$1/" },
    },
    {
      name: "charts-draw-and-do-not-compute",
      severity: "error",
      from: { path: "^src/charts/" },
      to: { path: "^(workers|src/(acoustics|flow|lips|response|bench|trial|record|app|cli))/" },
    },
    {
      name: "charts-are-for-app-and-notebooks",
      severity: "error",
      from: { path: "^(src|workers)/", pathNot: "^src/(app|charts)/" },
      to: { path: "^src/charts/" },
    },
    {
      name: "workers-call-studies",
      severity: "error",
      from: { path: "^workers/" },
      to: { path: "^src/(charts|app|cli)/" },
    },
    {
      name: "the-page-does-no-physics",
      severity: "error",
      from: { path: "^src/app/" },
      to: { path: "^src/(acoustics|flow|lips)/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "nothing-imports-the-terminal",
      severity: "error",
      from: { pathNot: "^(src/cli|bin|tests)/" },
      to: { path: "^src/cli/" },
    },
    {
      name: "a-task-knows-no-other-task",
      severity: "error",
      from: { path: "^src/app/tasks/([^/]+)/" },
      to: { path: "^src/app/tasks/", pathNot: "^src/app/tasks/$1/" },
    },
    {
      name: "what-tasks-share-knows-no-task",
      severity: "error",
      from: { path: "^src/app/(state|form|chart|work|sound|shell/look)/" },
      to: { path: "^src/app/tasks/" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "shipped-code-does-not-use-development-packages",
      severity: "error",
      from: { path: "^(src|workers)/" },
      to: { dependencyTypes: ["npm-dev"] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { extensions: [".ts", ".js", ".mjs", ".json"] },
  },
};
