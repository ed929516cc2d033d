// The library ships no types; only what the tests call.
declare module "jstat" {
  interface NoncentralT {
    cdf(x: number, freedom: number, noncentrality: number): number;
  }
  const library: { readonly jStat: { readonly noncentralt: NoncentralT } };
  export default library;
}
