use std::collections::BTreeMap;
use toehold::concepts;
use toehold::technique::Catalogue;
fn main(){
 let g=concepts::load_and_check(&concepts::embedded()).ok().unwrap();
 let c=Catalogue::new(&g);
 let mut acts:BTreeMap<String,std::collections::BTreeSet<Vec<String>>>=BTreeMap::new();
 for (_,a) in g.acts(){acts.entry(a.id.clone()).or_default();}
 let mut inf:BTreeMap<String,usize>=g.influences().map(|(_,i)|(i.id.clone(),0)).collect();
 for x in c.candidates(){
  let p:Vec<String>=x.path.steps().iter().map(|s|g.influence(*s).id.clone()).collect();
  for s in &p{*inf.get_mut(s).unwrap()+=1;}
  acts.entry(g.act(x.act).id.clone()).or_default().insert(p);
 }
 for (a,p) in &acts{println!("{a} {}",p.len());}
 println!("unused: {:?}",inf.iter().filter(|(_,n)|**n==0).map(|(i,_)|i).collect::<Vec<_>>());
 println!("influences {} quantities {} principles {}",g.influences().count(),g.quantities().count(),g.principles().count());
}
