mod common;
use tautline::{chart::*,cut::*,head::*,hair::Hair,plan::*};
#[test] fn show(){
 let plan_id=std::env::var("PLAN").unwrap_or("soft-layers-face-frame".into());
 let h=common::mean_head();
 let plan=built_in(&plan_id).unwrap(); let (hair,choices)=(Hair::default(),Choices::default());
 let job=Job{head:&h,hair:&hair,plan:&plan,choices:&choices};
 let o=cut(&job,&Measured::new()).unwrap();
 let place: usize=std::env::var("PLACE").ok().and_then(|p|p.parse().ok()).unwrap_or(4);
 let t0=std::time::Instant::now();
 let t=Turned::new(&h,-30.0);
 println!("new {:?}",t0.elapsed());
 let mut html=String::new();
 let css:String=["tokens","pictures","desk","head_view"].iter().map(|n|std::fs::read_to_string(format!("style/{n}.css")).unwrap()).collect();
 let look=std::env::var("LOOK").unwrap_or("light".into());
 html+=&format!("<html data-look='{look}'><style>{css} body{{background:var(--paper);margin:4px;display:grid;grid-template-columns:repeat(4,1fr);gap:4px}} svg{{max-height:none!important}}</style>");
 let mode=std::env::var("MODE").unwrap_or("held".into());
 let t0=std::time::Instant::now();
 let scene=match mode.as_str(){"bare"=>Scene::default(),"down"=>Scene::let_down(&job,&o,place).unwrap(),_=>Scene::held(&h,&o,place)};
 println!("scene {:?}",t0.elapsed());
 let win=match mode.as_str(){"down"=>Scene::fallen_window(&h,scene.hairs.iter().flatten().map(|p|p.z).fold(0.0,f64::min)),"bare"=>turned_window((-24.,11.),14.),_=>Scene::held_window(&h,&o,o.sections[place].step)};
 let mut eyes:Vec<Eye>=Eye::NAMED.iter().map(|e|e.1).collect();
 eyes.extend([Eye::at_degrees(-140.0,15.0),Eye::at_degrees(20.0,30.0)]);
 for e in eyes { let t0=std::time::Instant::now(); let d=t.drawn(e,&scene); println!("{:?} {} bytes",t0.elapsed(),d.iter().map(|s|s.len()).sum::<usize>());
  html+=&turned_picture(&d,&win,&e.words(),"d"); }
 std::fs::write("/tmp/hA-scratch/a.html",html).unwrap();
}
