export { depthFigure } from "./depthFigure.js";
export { rodeFigure } from "./rodeFigure.js";
export { shelterFigure } from "./shelterFigure.js";
export { swingFigure } from "./swingFigure.js";
export type { FigureOptions, FigureTheme } from "./svg.js";
