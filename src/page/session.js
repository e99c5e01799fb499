/* SPDX-License-Identifier: MIT */
/* Sends what is typed and puts the sections that come back in the place of the old ones; focus, caret, scroll and what */
/* is unfolded stay. It contains no character that is markup. Comments stand on lines of their own, which are not built in. */
(function(){'use strict';
var html=document.documentElement,version=html.dataset.version,unsaved=html.dataset.unsaved==='yes',timer=0,queue=Promise.resolve(),latest={},count=0,live=document.createElement('div');
html.classList.add('scripted');live.className='live';live.setAttribute('aria-live','polite');document.body.appendChild(live);
function all(s,r){return Array.prototype.slice.call((r||document).querySelectorAll(s));}
function key(f){if(f.classList.contains('sentence'))return f.elements.do.value;var n=['do','part','attribute','change','what','proposal'].map(function(k){return f.elements[k]?f.elements[k].value:'';});return n.join(' ');}
function typed(f){return f.elements.value;}
function first(i){if(i.tagName!=='SELECT')return i.defaultValue;var o=all('option',i).filter(function(x){return x.defaultSelected;})[0]||i.options[0];return o.value;}
/* what the user is at: the field, what stands in it, the caret, and where on the screen it is */
function where(){var e=document.activeElement,f=e?e.form:null,open={};
all('#write details').forEach(function(d){open[d.dataset.group]=d.open;});
return{open:open,key:f?key(f):null,name:e?e.name:'',type:e?e.type:'',value:e?e.value:'',from:e?e.selectionStart:null,to:e?e.selectionEnd:null,
top:e?e.getBoundingClientRect().top:0,dirty:f?typed(f)?typed(f).value!==first(typed(f)):false:false};}
function back(w,sent){all('#write details').forEach(function(d){if(w.open[d.dataset.group])d.open=true;});
if(w.key===null)return;
var f=all('form').filter(function(g){return key(g)===w.key;})[0],e=f?all('input,select,button',f).filter(function(x){return x.name===w.name?x.type===w.type:false;})[0]:null;
if(!e)e=document.querySelector('#bar button:enabled');
if(!e)return;
e.focus({preventScroll:true});
if(w.dirty)if(e.tagName==='INPUT')if(w.value!==sent)if(w.name==='value')e.value=w.value;
if(w.from!==null)if(e.setSelectionRange)if(e.type==='text')e.setSelectionRange(w.from,w.to);
window.scrollBy(0,e.getBoundingClientRect().top-w.top);}
/* a page that was none of a plant becomes one */
function renew(){(engine?call({name:'',form:''}):fetch('./').then(function(r){return r.text();})).then(function(text){
var page=new DOMParser().parseFromString(text,'text/html'),head=document.querySelector('header');
document.title=page.title;all('nav').forEach(function(n){n.remove();});
head.replaceWith(page.querySelector('header'),page.querySelector('nav'));
var main=document.querySelector('main');main.replaceChildren.apply(main,Array.from(page.querySelector('main').childNodes));
all('section',main).forEach(function(s){s.dispatchEvent(new CustomEvent('renewed',{bubbles:true}));});
all('form.field').forEach(slider);window.scrollTo(0,0);});}
function show(answer,sent){var w=where(),fresh=[];version=answer.version;unsaved=answer.unsaved;
answer.fragments.forEach(function(g){var old=document.getElementById(g.id),box=document.createElement('template');
if(!old){renew();return;}
box.innerHTML=g.html;var now=box.content.firstElementChild;old.parentNode.replaceChild(now,old);fresh.push(now);});
fresh.forEach(function(n){n.dispatchEvent(new CustomEvent('renewed',{bubbles:true}));});
all('form.field').forEach(slider);back(w,sent);if(!answer.refused)effects();
live.textContent=answer.refused||(document.querySelector('#bar p')||live).textContent;}
/* what each change does alone follows, one after the other, while nothing else is asked */
function effects(){var f=document.querySelector('form.effects'),a=f?f.elements.all:null;if(!a)return;a.remove();send(f);}
/* What is asked goes to the program, or to the desk in this page, which works beside it. */
var engine=document.getElementById('engine'),worker,waiting=[],broken=false,trouble='This browser cannot compute here; one from 2023 or later can. What stands here can be read, but not changed.';
function fault(words){live.textContent='';var p=document.querySelector('#bar p');if(!p)return;
p.textContent=words;p.className='wrong';p.setAttribute('role','alert');}
function stop(e){if(e)e.preventDefault();broken=true;fault(trouble);waiting.splice(0).forEach(function(w){w[1]();});}
function call(m){return new Promise(function(done,refuse){waiting.push([done,refuse]);if(broken)stop();else worker.postMessage(m);});}
if(engine){try{worker=new Worker(URL.createObjectURL(new Blob([engine.textContent],{type:'text/javascript'})));
worker.onmessage=function(e){waiting.shift()[0](e.data);};worker.onerror=stop;}catch(e){broken=true;}
call(JSON.parse(document.getElementById('begins').textContent)).then(function(good){
trouble=good?'The program in this page has stopped: open the page again. What was not saved is lost.':'The program in this page cannot read this plant file; farvessel try can.';
if(!good)stop();},function(){});}
function ask(data){if(engine)return call({name:'do',form:data.toString()}).then(JSON.parse);
return fetch('do',{method:'POST',headers:{Accept:'application/json'},body:data}).then(function(r){if(!r.ok)throw new Error(r.status);return r.json();});}
function keep(name){return call({name:name,form:''}).then(function(text){var a=document.createElement('a');
a.href=URL.createObjectURL(new Blob([text]));a.download=name;a.click();}).catch(function(){});}
document.addEventListener('click',function(e){var a=e.target.closest('a[download]');
if(a)if(engine){e.preventDefault();keep(a.getAttribute('href'));}});
/* What lies under a finger stays until it is lifted: a press is a click only where it ends on what it began on. A slider */
/* is followed while it moves. Blur is of the window alone. */
var pressed=Promise.resolve(),lift=null;
function press(){if(!lift)pressed=new Promise(function(done){lift=done;});}
function lifted(){if(lift)setTimeout(lift,60);lift=null;}
document.addEventListener('pointerdown',function(e){if(e.button===0)if(e.target.type!=='range')press();},true);
document.addEventListener('keydown',function(e){if(e.key===' ')if(e.target.tagName==='BUTTON')press();},true);
['pointerup','pointercancel','keyup','blur'].forEach(function(n){window.addEventListener(n,lifted,n!=='blur');});
function send(form){var data=new URLSearchParams(new FormData(form)),sent=data.get('value'),name=key(form),mine=++count;latest[name]=mine;
queue=queue.then(function(){if(data.get('do')==='set')if(mine!==latest[name])return null;
data.set('seen',version);html.classList.add('busy');
return ask(data).then(function(a){return pressed.then(function(){return a;});}).then(function(a){show(a,sent);if(engine)if(data.get('do')==='save')if(!a.refused)keep('plant.xml');}).catch(function(){fault(engine?trouble:'No answer: is the program still running? What you changed may not have arrived.');})
.then(function(){html.classList.remove('busy');});});}
function later(form,wait){clearTimeout(timer);timer=setTimeout(function(){var i=typed(form);
if(document.body.contains(form))if(i.value!==first(i))send(form);},wait);}
/* a slider under what is turned by hand */
function slider(f){var i=typed(f);if(!i)return;if(i.dataset.hand!=='yes')return;if(f.querySelector('[type=range]'))return;
var r=document.createElement('input'),n=parseFloat(i.value||i.placeholder),u=(i.value||i.placeholder).indexOf('%')+1?1:100;
r.type='range';r.min=0;r.max=100;r.step=5;r.value=isNaN(n)?100:n*u;r.setAttribute('aria-label',f.querySelector('label').textContent+', in per cent');
r.addEventListener('input',function(){i.value=r.value+' %';later(f,150);});f.appendChild(r);}
document.addEventListener('input',function(e){var f=e.target.form;if(!f)return;if(!f.classList.contains('field'))return;
if(e.target.name!=='value')return;later(f,e.target.tagName==='SELECT'?0:700);});
document.addEventListener('submit',function(e){e.preventDefault();clearTimeout(timer);var i=typed(e.target);
if(e.target.classList.contains('field'))if(i.value===first(i))return;send(e.target);});
document.addEventListener('focusout',function(e){var f=e.target.form;if(!f)return;if(!f.classList.contains('field'))return;
if(e.target.name!=='value')return;if(!document.body.contains(e.target))return;later(f,0);});
document.addEventListener('keydown',function(e){var t=e.target;
if(e.key==='Escape')if(t.form)if(t.name==='value'){clearTimeout(timer);if(t.tagName==='INPUT')t.value=t.dataset.was===undefined?t.defaultValue:t.dataset.was;return;}
if(!(e.ctrlKey||e.metaKey)||e.altKey)return;
var what={z:e.shiftKey?'redo':'undo',y:'redo',s:'save'}[e.key.toLowerCase()];
if(what===undefined)return;
if(what!=='save')if(t.tagName==='INPUT')if(t.type!=='range')if(t.value!==t.defaultValue)return;
e.preventDefault();clearTimeout(timer);
all('#bar form').forEach(function(f){if(f.elements.do.value===what)if(!f.querySelector('button').disabled)send(f);});});
window.addEventListener('beforeunload',function(e){if(unsaved)e.preventDefault();});
all('form.field').forEach(slider);
})();
