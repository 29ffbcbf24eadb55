export { prepareCoast } from "./coast.js";
export { fetchFan } from "./fetchFan.js";
