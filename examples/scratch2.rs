use toehold::concepts;
use toehold::technique::*;
use toehold::seed::Seed;
use toehold::reasoning::derive;
use toehold::experiment::simulate;
use toehold::scenario::agree;
use std::collections::BTreeMap;
fn main(){
 let g=concepts::load_and_check(&concepts::embedded()).ok().unwrap();
 let c=Catalogue::new(&g);
 let mut m:BTreeMap<String,usize>=BTreeMap::new();
 for seed in 0..1500u64 { for attempt in 0..3 {
  let Ok(t)=compose(&g,&c,&Wish::default(),Seed(seed),attempt) else {continue};
  let plain=derive(&g,&t.path,&t.settings,None);
  let tw=t.twist.map(|a|derive(&g,&t.path,&t.settings,Some(a)));
  let twn=t.twist.map(|a|format!("{}/{}",g.influence(a.influence).id,a.get(&g).unwrap().id)).unwrap_or_default();
  let p:Vec<String>=t.path.steps().iter().map(|s|g.influence(*s).id.clone()).collect();
  match simulate(&g,&t){
   Ok(d)=>{ if let Err(e)=agree(&plain,tw.as_ref(),&d){ *m.entry(format!("{e:?} {} | {} | {twn}",g.act(t.act).id,p.last().unwrap())).or_default()+=1; } }
   Err(e)=>{ if e!=Refusal::NotVisible||true { let k= if matches!(e,Refusal::TwistDoesNotShow){format!("{e:?} {twn}")} else {format!("{e:?} {} -> {}",p[0],p.last().unwrap())}; *m.entry(k).or_default()+=1;} }
  }
 }}
 let mut v:Vec<_>=m.into_iter().collect(); v.sort_by_key(|x|std::cmp::Reverse(x.1));
 for (k,n) in v.iter().take(70){println!("{n:5} {k}");}
}
