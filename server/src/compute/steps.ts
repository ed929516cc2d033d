export { finish, type Steps } from "../base/steps";
