export { stayFigure } from "./stayFigure.js";
export { holdingFigure } from "./holdingFigure.js";
export { rodeFigure } from "./rodeFigure.js";
export { shelterFigure } from "./shelterFigure.js";
export { swingFigure } from "./swingFigure.js";
export { watchFigure, type WatchDrawn } from "./watchFigure.js";
export type { FigureOptions, FigureTheme } from "./svg.js";
